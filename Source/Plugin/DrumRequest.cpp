#include "DrumRequest.h"

#include "ParameterText.h"
#include "PatternBook.h"
#include "SetValue.h"

#include "Modal/InputError.h"
#include "Modal/Units.h"

#include <algorithm>
#include <cmath>
#include <type_traits>

namespace plugin
{
namespace
{
using P = Parameter;

/** Sets a drum's members from parameters. */
class Reader
{
public:
    explicit Reader (const Values& toRead) : values (toRead) {}

    void operator() (P parameter, double& si) const { si = siOf (values, parameter); }
    void operator() (P parameter, int& count) const { count = whole (parameter); }
    void operator() (P parameter, bool& isSet) const { isSet = isOn (values, parameter); }
    void operator() (P parameter, std::string& word) const
    {
        word = specOf (parameter).words[static_cast<std::size_t> (whole (parameter))];
    }
    template <class Choice>
    requires std::is_enum_v<Choice>
    void operator() (P parameter, Choice& choice) const { choice = static_cast<Choice> (whole (parameter)); }

private:
    int whole (P parameter) const { return static_cast<int> (std::lround (valueOf (values, parameter))); }

    const Values& values;
};

/** Sets parameters from a drum's members. Throws modal::InputError if a parameter cannot hold the value. */
class Setter
{
public:
    explicit Setter (Values& toFill) : values (toFill) {}

    void operator() (P parameter, double si) const { setSi (values, parameter, si); }
    void operator() (P parameter, const std::string& word) const
    {
        values[indexOf (parameter)] = static_cast<float> (valueFrom (word, specOf (parameter)));
    }
    template <class Choice>
    requires std::is_enum_v<Choice>
    void operator() (P parameter, Choice choice) const { (*this) (parameter, static_cast<double> (choice)); }

private:
    Values& values;
};

/** Lists the parameters and what a drum's members are. */
struct Lister
{
    PartNumbers& numbers;

    template <class Value>
    void operator() (P parameter, Value value) const
    {
        numbers.push_back ({ parameter, static_cast<double> (value) });
    }
};

template <class Link>
PartNumbers listed (Link link)
{
    PartNumbers numbers;
    link (Lister{ numbers });
    return numbers;
}

/* What stands for what, once for all directions: `link` is a Reader, a Setter or a Lister. */

template <class Link, class Head>
void linkBatter (const Link& link, Head& head)
{
    link (P::batterFilm, head.plyThickness);
    link (P::batterPlies, head.plies);
    link (P::batterCoating, head.coatingDensity);
    link (P::batterDot, head.dotDiameter);
    link (P::batterDotFilm, head.dotThickness);
    link (P::batterRing, head.ringWidth);
    link (P::batterRingFilm, head.ringThickness);
}

template <class Link, class Head>
void linkResonant (const Link& link, Head& head)
{
    link (P::resonantFilm, head.plyThickness);
    link (P::resonantPlies, head.plies);
    link (P::resonantCoating, head.coatingDensity);
}

template <class Link, class Drum>
void linkShell (const Link& link, Drum& drum)
{
    link (P::diameter, drum.diameter);
    link (P::depth, drum.depth);
    link (P::bottom, drum.bottom);
    link (P::lugs, drum.lugs);
    link (P::ventDiameter, drum.vent.diameter);
    link (P::shellMaterial, drum.shell.material);
    link (P::shellThickness, drum.shell.thickness);
}

template <class Link, class Wires>
void linkWires (const Link& link, Wires& wires)
{
    link (P::wiresOn, wires.on);
    link (P::wireStrands, wires.strands);
    link (P::wireMass, wires.strandMass);
    link (P::wireTension, wires.strandTension);
    link (P::wirePress, wires.pressDepth);
    link (P::wireUnevenness, wires.unevenness);
}

template <class Link, class Stick>
void linkStick (const Link& link, Stick& stick)
{
    link (P::stickLength, stick.length);
    link (P::stickDiameter, stick.diameter);
    link (P::stickTaper, stick.taperLength);
    link (P::tipMaterial, stick.tipMaterial);
    link (P::tipDiameter, stick.tipDiameter);
    link (P::tipLength, stick.tipLength);
    link (P::neckDiameter, stick.neckDiameter);
    link (P::rodDiameter, stick.rodDiameter);
    link (P::brushWires, stick.brushWires);
    link (P::brushWireDiameter, stick.brushWireDiameter);
    link (P::brushWireLength, stick.brushWireLength);
    link (P::brushWidth, stick.brushWidth);
    link (P::brushMaterial, stick.brushMaterial);
    link (P::woodDensity, stick.woodDensity);
    link (P::woodModulus, stick.woodModulus);
}

template <class Link, class Weather>
void linkWeather (const Link& link, Weather& weather)
{
    link (P::temperature, weather.temperature);
    link (P::humidity, weather.relativeHumidity);
}

template <class Link, class Place>
void linkPlace (const Link& link, Place& place)
{
    link (P::placeKind, place.kind);
    link (P::roomVolume, place.volume);
    link (P::lengthToHeight, place.lengthToHeight);
    link (P::widthToHeight, place.widthToHeight);
    for (std::size_t octave = 0; octave < place.times.size(); ++octave)
        link (reverberation (octave), place.times[octave]);
    link (P::drumFromWall, place.drumFromWall);
    link (P::drumAside, place.drumAside);
    link (P::drumHeight, place.drumHeight);
    link (P::listenerDistance, place.listenerDistance);
    link (P::listenerAside, place.listenerAside);
    link (P::listenerHeight, place.listenerHeight);
    link (P::noiseRating, place.noiseRating);
}

modal::Muffling mufflingOf (const Values& values, double radius)
{
    modal::Muffling muffling;
    const auto patch = [&] (P mass, modal::HeadSide head)
    {
        if (siOf (values, mass) <= 0.0)
            return;
        modal::MufflingItem item;
        item.head = head;
        item.mass = siOf (values, mass);
        item.size = siOf (values, P::patchSize);
        item.distance = siOf (values, P::patchPlace) * radius;
        item.resistance = siOf (values, P::patchRub);
        muffling.push_back (item);
    };

    patch (P::patchMass, modal::HeadSide::batter);
    patch (P::resonantPatchMass, modal::HeadSide::resonant);

    if (siOf (values, P::muffleRingMass) > 0.0)
    {
        modal::MufflingItem item;
        item.shape = modal::MufflingItem::Shape::ring;
        item.mass = siOf (values, P::muffleRingMass);
        item.size = siOf (values, P::muffleRingWidth);
        item.resistance = siOf (values, P::patchRub);
        muffling.push_back (item);
    }

    return muffling;
}

/** Cents of the drum's lugs; empty if all are 0. */
std::vector<double> lugCentsOf (const Values& values, P first, int lugs)
{
    std::vector<double> cents;
    for (int lug = 0; lug < lugs; ++lug)
        cents.push_back (static_cast<double> (values[indexOf (first) + static_cast<std::size_t> (lug)]));

    const bool isEven = std::all_of (cents.begin(), cents.end(), [] (double c) { return c == 0.0; });
    return isEven ? std::vector<double>{} : cents;
}

modal::Tuning tuningOf (const Values& values, std::optional<int> playedNote, int lugs)
{
    modal::Tuning tuning;
    tuning.concertPitch = { siOf (values, P::concertPitch) };
    const auto note = playedNote ? static_cast<double> (*playedNote) : static_cast<double> (valueOf (values, P::batterNote));
    const auto hertzOf = [&] (double midi, P fine)
    {
        const auto cents = static_cast<double> (valueOf (values, fine));
        return tuning.concertPitch.a4 * std::exp2 ((midi - 69.0) / 12.0 + cents / 1200.0);
    };
    const auto interval = static_cast<double> (valueOf (values, P::interval));
    tuning.target = modal::ByTapNotes{ hertzOf (note, P::batterCents), hertzOf (note + interval, P::resonantCents) };
    tuning.lugs.batter = lugCentsOf (values, P::batterLug1, lugs);
    tuning.lugs.resonant = lugCentsOf (values, P::resonantLug1, lugs);
    return tuning;
}

std::vector<engine::Microphone> microphonesOf (const Values& values, double depth)
{
    auto microphones = engine::defaultMicrophones (depth);
    const auto turn = [] (engine::Microphone& microphone, double radius)
    {
        const auto now = std::hypot (microphone.x, microphone.y);
        microphone.x *= radius / now;
        microphone.y *= radius / now;
    };
    turn (microphones[0], siOf (values, P::aboveOffset));
    microphones[0].z = siOf (values, P::aboveHeight);
    microphones[1].z = -depth - siOf (values, P::belowDistance);

    auto& distant = microphones[2];
    const auto scale = siOf (values, P::distantDistance) / std::hypot (distant.x, distant.y, distant.z);
    distant.x *= scale;
    distant.y *= scale;
    distant.z *= scale;
    return microphones;
}

void setHeads (const Setter& set, const modal::DrumSpec& drum)
{
    linkBatter (set, drum.batter);

    if (! drum.hasResonantHead())
        return;

    if (drum.resonant.dotDiameter > 0.0 || drum.resonant.ringWidth > 0.0)
        throw modal::InputError ("Resonant head", "a dot or a ring",
                                 "a plain or coated head; the plugin has dots and rings on the batter head");

    linkResonant (set, drum.resonant);
}

void setMuffling (const Setter& set, const modal::DrumSpec& drum)
{
    for (const auto mass : { P::patchMass, P::muffleRingMass, P::resonantPatchMass })
        set (mass, 0.0);

    for (const auto& item : drum.muffling)
    {
        const bool isRing = item.shape == modal::MufflingItem::Shape::ring;
        const auto mass = isRing ? P::muffleRingMass : item.head == modal::HeadSide::batter ? P::patchMass : P::resonantPatchMass;
        set (mass, item.mass);
        set (isRing ? P::muffleRingWidth : P::patchSize, item.size);
        set (P::patchRub, item.resistance);
        if (! isRing)
            set (P::patchPlace, item.distance / drum.radius());
    }
}

/** Sets a parameter in semitones to the nearest it can hold, and another, in cents, to what is left. Returns the former. */
double setWithCents (const Setter& set, P semitones, P cents, double value)
{
    const auto nearest = specOf (semitones).snapped (value);
    const bool isInReach = std::abs (100.0 * (value - nearest)) <= specOf (cents).high;
    set (semitones, isInReach ? nearest : value); // out of reach: refused with the name of the note
    set (cents, 100.0 * (value - nearest));
    return nearest;
}

void setTuning (const Setter& set, const modal::DrumSpec& drum, const modal::Tuning& tuning)
{
    double batter = 0.0, resonant = 0.0;

    if (const auto* notes = std::get_if<modal::ByTapNotes> (&tuning.target))
    {
        batter = notes->batter;
        resonant = notes->resonant;
    }
    else
    {
        const auto tensions = modal::tensionsFor (drum, tuning);
        batter = modal::tapNote (drum, modal::HeadSide::batter, tensions.batter);
        resonant = drum.hasResonantHead() ? modal::tapNote (drum, modal::HeadSide::resonant, tensions.resonant) : 0.0;
    }

    set (P::concertPitch, tuning.concertPitch.a4);
    const auto coarse = setWithCents (set, P::batterNote, P::batterCents, modal::midiOfHertz (batter, tuning.concertPitch));
    set (P::resonantCents, 0.0);
    if (resonant > 0.0)
        setWithCents (set, P::interval, P::resonantCents, modal::midiOfHertz (resonant, tuning.concertPitch) - coarse);

    for (int lug = 0; lug < lugParameters; ++lug)
    {
        const auto centsAt = [lug] (const std::vector<double>& cents)
        { return static_cast<std::size_t> (lug) < cents.size() ? cents[static_cast<std::size_t> (lug)] : 0.0; };
        set (batterLug (lug), centsAt (tuning.lugs.batter));
        set (resonantLug (lug), centsAt (tuning.lugs.resonant));
    }
}

files::MicrophoneSpecs microphoneSpecsOf (const Values& values, const std::vector<engine::Microphone>& microphones)
{
    files::MicrophoneSpecs specs;

    for (std::size_t i = 0; i < specs.size(); ++i)
    {
        const auto& p = microphoneParameters[i];
        specs[i] = { microphones[i].x,       microphones[i].y,     microphones[i].z,
                     siOf (values, p.level), siOf (values, p.pan), isOn (values, p.inverted) };
    }

    return specs;
}

/** The window's microphones move up and down, or outwards, on a fixed line; the nearest such place is set. */
void setMicrophones (const Setter& set, const files::MicrophoneSpecs& microphones, double depth)
{
    set (P::aboveOffset, std::hypot (microphones[0].x, microphones[0].y));
    set (P::aboveHeight, microphones[0].z);
    set (P::belowDistance, -depth - microphones[1].z);
    set (P::distantDistance, std::hypot (microphones[2].x, microphones[2].y, microphones[2].z));

    for (std::size_t i = 0; i < microphones.size(); ++i)
    {
        const auto& p = microphoneParameters[i];
        set (p.level, microphones[i].level);
        set (p.pan, microphones[i].pan);
        set (p.inverted, microphones[i].isInverted ? 1.0 : 0.0);
    }
}

/** Sets the window's pattern of these strokes; without one of these strokes only the tempo. */
void setPattern (const Setter& set, const files::PatternSpec& pattern)
{
    set (P::patternTempo, pattern.tempo);
    if (const auto found = findPattern (pattern.strokes, pattern.stepsPerBeat))
        set (P::pattern, static_cast<double> (*found));
}
} // namespace

DrumRequest requestOf (const Values& values, std::optional<int> playedNote)
{
    const Reader read (values);
    DrumRequest request;
    auto& drum = request.drum;
    linkShell (read, drum);
    drum.vent.length = drum.shell.thickness;
    linkBatter (read, drum.batter);
    linkResonant (read, drum.resonant);
    drum.muffling = mufflingOf (values, drum.radius());

    linkWeather (read, request.weather);
    drum.air = modal::Air::from (request.weather);

    request.tuning = tuningOf (values, playedNote, drum.lugs);
    linkWires (read, request.wires);
    request.stick = stickOf (values);
    read (P::hoop, request.hoop.kind);
    request.microphones = microphonesOf (values, drum.depth);
    request.place = placeOf (values);
    return request;
}

PartNumbers batterNumbers (const modal::HeadConstruction& head)
{
    return listed ([&] (const Lister& list) { linkBatter (list, head); });
}

PartNumbers resonantNumbers (const modal::HeadConstruction& head)
{
    return listed ([&] (const Lister& list) { linkResonant (list, head); });
}

PartNumbers wireNumbers (const modal::WireSpec& spec)
{
    return listed ([&] (const Lister& list) { linkWires (list, spec); });
}

PartNumbers stickNumbers (const modal::StickSpec& spec)
{
    return listed ([&] (const Lister& list) { linkStick (list, spec); });
}

PartNumbers placeNumbers (const place::Place& place)
{
    return listed ([&] (const Lister& list) { linkPlace (list, place); });
}

modal::StickSpec stickOf (const Values& values)
{
    modal::StickSpec stick;
    linkStick (Reader (values), stick);
    return stick;
}

std::optional<place::Place> placeOf (const Values& values)
{
    if (! isOn (values, P::placeOn))
        return std::nullopt;

    const Reader read (values);
    place::Place place;
    linkPlace (read, place);
    linkWeather (read, place.weather);
    return place::madePossible (place);
}

void setDrum (Values& values, const files::DrumFile& file, std::size_t tuning)
{
    const auto& drum = file.drum;

    if (tuning >= file.tunings.size())
        throw modal::InputError ("tunings", "none", "at least one tuning in the drum file");
    if (drum.surround != modal::Surround::freeStanding || drum.air.isVacuum())
        throw modal::InputError ("drum", "a baffled drum or a drum without air", "a drum on a stand in air");

    auto changed = values;
    const Setter set (changed);
    linkShell (set, drum);
    setHeads (set, drum);
    setMuffling (set, drum);
    linkWires (set, file.wires);
    linkStick (set, file.stick);
    set (P::hoop, file.hoop.kind);
    setTuning (set, drum, file.tunings[tuning]);
    if (file.microphones)
        setMicrophones (set, *file.microphones, drum.depth);
    if (file.pattern)
        setPattern (set, *file.pattern);
    if (file.weather)
        linkWeather (set, *file.weather);
    if (file.place)
    {
        set (P::placeOn, 1.0);
        linkPlace (set, *file.place);
    }

    values = changed;
}

void setMufflingAndWires (Values& values, const modal::DrumSpec& drum, const modal::WireSpec& wires)
{
    auto changed = values;
    const Setter set (changed);
    setMuffling (set, drum);
    linkWires (set, wires);
    values = changed;
}

files::DrumFile drumFileOf (const Values& values, const std::string& name)
{
    const auto request = requestOf (values);
    files::DrumFile file;
    file.drum = request.drum;
    file.drum.name = name;
    file.weather = request.weather;
    file.wires = request.wires;
    file.hoop = request.hoop;
    file.stick = request.stick;
    file.microphones = microphoneSpecsOf (values, request.microphones);
    const auto& pattern = patternBook()[static_cast<std::size_t> (valueOf (values, P::pattern))];
    file.pattern = { pattern.text, siOf (values, P::patternTempo), pattern.stepsPerBeat };
    file.place = request.place;
    file.tunings = { request.tuning };
    return file;
}

} // namespace plugin
