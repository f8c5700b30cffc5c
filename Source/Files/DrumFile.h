#pragma once

#include "Json.h"

#include "Modal/DrumSpec.h"
#include "Modal/Tuning.h"
#include "Modal/hardware/Hoop.h"
#include "Modal/hardware/Stick.h"
#include "Modal/hardware/Wires.h"
#include "Place/Place.h"

#include <array>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace files
{

/** A microphone: where it stands and its part in the stereo mix. The origin is the centre of the batter head; z points up. */
struct MicrophoneSpec
{
    double x = 0.0, y = 0.0, z = 0.0; ///< m, along the wires, across them, up; -15 to 15 each
    double level = 0.0;               ///< dB, -60 to 24; at -60 it is silent
    double pan = 0.0;                 ///< -1 left to 1 right
    bool isInverted = false;          ///< polarity
};

/** Microphones above, below and distant. */
using MicrophoneSpecs = std::array<MicrophoneSpec, 3>;

/** What is played: strokes as score::readPattern() takes them. */
struct PatternSpec
{
    std::string strokes;
    double tempo = 100.0; ///< beats per minute, 20 to 400
    int stepsPerBeat = 4; ///< 1 to 16
};

/** A drum with its tunings as one document.

        { "format": "snarewright-drum", "version": 1, "name": "Maple 14 x 5", "diameter_in": 14, "depth_in": 5, "lugs": 8,
          "batter": { "thickness_mil": 10, "coating_g_per_m2": 30 }, "resonant": "3mil",
          "tunings": [ { "name": "Evening", "batter": { "tap_note": "G#3" }, "interval": "P4" } ] }

    Every number's key ends in its unit. README.md beside this file lists the keys.
*/
struct DrumFile
{
    modal::DrumSpec drum;
    std::optional<modal::Weather> weather; ///< from which `drum.air` was calculated, if it was
    std::vector<modal::Tuning> tunings;
    modal::WireSpec wires;
    modal::HoopSpec hoop;   ///< both hoops
    modal::StickSpec stick; ///< what it is played with
    std::optional<MicrophoneSpecs> microphones;
    std::optional<PatternSpec> pattern;
    Json window; ///< what the plugin keeps beyond the drum, an object that only it reads; null if there is none
    std::optional<place::Place> place; ///< where it is played and heard; none: nowhere in particular
};

/** Throws modal::InputError naming the path of the field, the value and what is allowed. `source` names the document. A concert
   pitch given here overrides the document's; notes such as "G#3" follow it. */
DrumFile readDrum (const std::string& text, const std::string& source, std::optional<modal::ConcertPitch> = std::nullopt);
DrumFile loadDrum (const std::filesystem::path&, std::optional<modal::ConcertPitch> = std::nullopt);

/** The document that reads back as the same drum and tunings. */
std::string writeDrum (const DrumFile&);

/** The parts, for other documents that hold a drum or a tuning. `path` names the value in errors. */
modal::HeadConstruction readHead (const Json&, const std::string& path);
/** An object changes what it names of `start`; the name of a set of wires replaces all of it. */
modal::WireSpec readWires (const Json&, const std::string& path, modal::WireSpec start = {});
modal::WireSpec namedWires (const std::string& name, const std::string& path); ///< one of wirePresets()
/** One of stickPresets() by name, or by its numbers. Files from before sticks had a body are read by stickOfPoints(). */
modal::StickSpec readStick (const Json&, const std::string& path);
modal::StickSpec namedStick (const std::string& name, const std::string& path); ///< one of stickPresets()

/** The stick that stands for a mass at the tip (kg, 14 g being the usual stick) and a stiffness (N/m^1.5, 8e5 being wood): its wood is
    so much heavier, its tip of nylon if it was more than twice as stiff. The rest is as in `like`. */
modal::StickSpec stickOfPoints (double tipMass, double tipStiffness, const modal::StickSpec& like = {});
/** An object, or the name of one of placePresets(). */
place::Place readPlace (const Json&, const std::string& path);
modal::Muffling readMuffling (const Json&, const std::string& path);
modal::Tuning readTuning (const Json&, const modal::DrumSpec&, const std::string& path,
                          std::optional<modal::ConcertPitch> = std::nullopt);
Json headAsJson (const modal::HeadConstruction&);
Json wiresAsJson (const modal::WireSpec&);
Json mufflingAsJson (const modal::Muffling&);
Json placeAsJson (const place::Place&);
Json stickAsJson (const modal::StickSpec&);
Json drumAsJson (const modal::DrumSpec&, const std::optional<modal::Weather>& = std::nullopt);
Json tuningAsJson (const modal::Tuning&, const modal::DrumSpec&);

} // namespace files
