#pragma once

#include "Files/Quantity.h"
#include "Modal/DrumNumbers.h"

#include <array>
#include <string>
#include <string_view>
#include <vector>

namespace plugin
{

/** Every parameter, in the order in which hosts list them. New ones go to the end of their group; identifiers never change. */
enum class Parameter
{
    batterNote,
    interval,
    batterCents,
    resonantCents,
    concertPitch,
    tuningChannel,

    diameter,
    depth,
    bottom,
    lugs,
    ventDiameter,
    shellMaterial,
    shellThickness,
    hoop,

    batterFilm,
    batterPlies,
    batterCoating,
    batterDot,
    batterDotFilm,
    batterRing,
    batterRingFilm,

    resonantFilm,
    resonantPlies,
    resonantCoating,

    batterLug1, ///< as many per head as a drum may have, in order
    resonantLug1 = batterLug1 + static_cast<int> (modal::lugCount.high),

    wiresOn = resonantLug1 + static_cast<int> (modal::lugCount.high),
    wireStrands,
    wireMass,
    wireTension,
    wirePress,
    wireUnevenness,

    patchMass,
    patchSize,
    patchPlace,
    patchRub,
    muffleRingMass,
    muffleRingWidth,
    resonantPatchMass,

    stickLength,
    stickDiameter,
    stickTaper,
    tipMaterial,
    tipDiameter,
    tipLength,
    neckDiameter,
    rodDiameter,
    woodDensity,
    woodModulus,
    strokePlace,
    strokeAngle,
    rimLag,
    pressForce,
    pressTime,
    doubleDelay,
    doubleShare,
    strokeNotes,
    positionController,
    brushWires,
    brushWireDiameter,
    brushWireLength,
    brushWidth,
    brushMaterial,
    sweepForce,

    aboveLevel,
    abovePan,
    aboveInverted,
    aboveHeight,
    aboveOffset,
    belowLevel,
    belowPan,
    belowInverted,
    belowDistance,
    distantLevel,
    distantPan,
    distantInverted,
    distantDistance,

    temperature,
    humidity,

    placeOn,
    placeKind,
    roomVolume,
    lengthToHeight,
    widthToHeight,
    reverberation125, ///< one per octave, in order
    reverberation250,
    reverberation500,
    reverberation1k,
    reverberation2k,
    reverberation4k,
    reverberation8k,
    drumFromWall,
    drumAside,
    drumHeight,
    listenerDistance,
    listenerAside,
    listenerHeight,
    noiseRating,
    placeLevel,
    microphonesInPlace,

    pattern,
    patternOn,
    patternSynced,
    patternTempo,

    morphOn,
    morph,
    gain,
    bypass,

    count
};

inline constexpr std::size_t parameterCount = static_cast<std::size_t> (Parameter::count);
inline constexpr int lugParameters = static_cast<int> (modal::lugCount.high); ///< lugs per head that have a parameter: all

constexpr std::size_t indexOf (Parameter parameter) noexcept
{
    return static_cast<std::size_t> (parameter);
}

/** The parameter of one lug, counted from 0. */
constexpr Parameter batterLug (int lug) noexcept
{
    return static_cast<Parameter> (static_cast<int> (Parameter::batterLug1) + lug);
}
constexpr Parameter resonantLug (int lug) noexcept
{
    return static_cast<Parameter> (static_cast<int> (Parameter::resonantLug1) + lug);
}

/** The parameters of one microphone. */
struct MicrophoneParameters
{
    Parameter level, pan, inverted;
};

/** Of the microphones above, below and at a distance. */
inline constexpr std::array<MicrophoneParameters, 3> microphoneParameters{
    { { Parameter::aboveLevel, Parameter::abovePan, Parameter::aboveInverted },
      { Parameter::belowLevel, Parameter::belowPan, Parameter::belowInverted },
      { Parameter::distantLevel, Parameter::distantPan, Parameter::distantInverted } }
};

/** The parameter of the reverberation time in one octave, counted from 0. */
constexpr Parameter reverberation (std::size_t octave) noexcept
{
    return static_cast<Parameter> (indexOf (Parameter::reverberation125) + octave);
}

/** Meaning of a parameter's number, which decides its text. */
enum class Measure
{
    quantity, ///< a number in ParameterSpec::unit
    note,     ///< MIDI note number with fractions, shown as a note and cents
    interval, ///< semitones, shown by name
    cents,
    decibels, ///< the lowest value is silence
    pan,      ///< -1 left to 1 right
    whole,    ///< a count
    choice,   ///< an index into ParameterSpec::words
    toggle    ///< 0 or 1
};

/** What has to be recomputed when a parameter changes. */
enum class Effect
{
    modes,  ///< the drum's modes
    drum,   ///< only the rest: wires, stick, microphones
    place,  ///< only the room it is heard in
    playing ///< nothing: it is read while playing
};

struct ParameterSpec
{
    const char* id;   ///< never changes
    std::string name; ///< for people
    const char* group;
    Measure measure;
    Effect effect;
    double low, high, initial;
    double step = 0.0;                         ///< decimal: 1, 0.1 ...; 0 in a row: chosen from the range
    double middle = 0.0;                       ///< the value at half a slider's travel; 0: the mean of low and high
    const files::Quantity* quantity = nullptr; ///< for Measure::quantity
    const char* unitKey = "";                  ///< of the unit that low, high and initial are in
    std::vector<std::string> words = {};       ///< for Measure::choice
    std::vector<std::string> formerWords = {}; ///< by index: words that saved states may still hold; may be empty
    const char* lowestText = nullptr;          ///< text of the lowest value, such as "off" or "none"

    /** The unit of the values; only for Measure::quantity. */
    const files::Unit& unit() const;

    /** The value in SI; semitones, cents and decibels are unchanged. */
    double toSi (double value) const;
    double fromSi (double si) const;

    /** The nearest value that the parameter can take. */
    double snapped (double value) const noexcept;
};

/** One entry for every Parameter, in the same order. */
const std::array<ParameterSpec, parameterCount>& parameterTable();
const ParameterSpec& specOf (Parameter);

/** The parameter with this identifier, or Parameter::count. */
Parameter findParameter (std::string_view id);

} // namespace plugin
