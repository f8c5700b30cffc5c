#include "StrokeOptions.h"

#include "MidiScore.h"
#include "OptionText.h"

#include "Modal/InputError.h"
#include "Modal/Units.h"
#include "Score/MidiNotes.h"
#include "Score/PatternText.h"

namespace tool
{

using namespace files;

namespace
{
/** In the order of engine::StrokeKind. */
const std::vector<std::string> strokeWords{ "tip", "rimshot", "cross-stick", "buzz", "double" };

/** "0.3" or "0.3,45deg". */
void readPosition (const Arguments& arguments, engine::Stroke& stroke)
{
    constexpr Limits shareLimits{ 0.0, 0.98 }, angleLimits{ -modal::units::twoPi, modal::units::twoPi };
    const auto text = arguments.value ("position");

    if (! text)
        return;

    const auto comma = text->find (',');
    stroke.position = readQuantity (text->substr (0, comma), Quantity::share, shareLimits, "--position, share of the radius");

    if (comma != std::string::npos)
        stroke.angle = readQuantity (text->substr (comma + 1), Quantity::angle, angleLimits, "--position, angle");
}

void readSpeed (const Arguments& arguments, engine::Stroke& stroke)
{
    if (arguments.has ("speed") && arguments.has ("velocity"))
        throw modal::InputError ("--velocity", '"' + *arguments.value ("velocity") + "\" beside --speed", "one of the two");

    stroke.speed = readNumber (arguments, "speed", Quantity::speed, { 0.01, 12.0 }, stroke.speed);

    if (const auto velocity = arguments.value ("velocity"))
        stroke.speed = score::speedOfVelocity (readCount (*velocity, 1, 127, "--velocity"));
}

/** What a hand does the same way in every stroke of its kind. */
void readManner (const Arguments& arguments, engine::Stroke& stroke)
{
    stroke.rimLag = readNumber (arguments, "rim-lag", Quantity::time, { -1.0e-3, 1.0e-3 }, stroke.rimLag);
    stroke.pressForce = readNumber (arguments, "press-force", Quantity::force, { 0.5, 40.0 }, stroke.pressForce);
    stroke.pressTime = readNumber (arguments, "press-time", Quantity::time, { 0.02, 2.0 }, stroke.pressTime);
    stroke.secondDelay = readNumber (arguments, "second-after", Quantity::time, { 0.02, 0.5 }, stroke.secondDelay);
    stroke.secondShare = readNumber (arguments, "second-share", Quantity::share, { 0.1, 1.2 }, stroke.secondShare);
}

/** A single stroke's options say nothing about a pattern, which has its own. */
void refuseBeside (const Arguments& arguments, const char* score, std::initializer_list<const char*> options)
{
    for (const auto* option : options)
        if (arguments.has (option))
            throw modal::InputError::fault (std::string ("--") + option, "is given beside --" + std::string (score),
                                            "one of the two: what --" + std::string (score) + " plays has its own");
}

StrokesRead readSource (const Arguments& arguments)
{
    if (const auto path = arguments.value ("midi"))
    {
        refuseBeside (arguments, "midi", { "pattern", "tempo", "steps", "stroke", "position", "speed", "velocity" });
        return readMidiFile (*path);
    }

    if (const auto text = arguments.value ("pattern"))
    {
        static const Quantity tempoUnit{ "tempo", { { "bpm", "bpm", 1.0 } }, true };
        refuseBeside (arguments, "pattern", { "stroke", "position", "speed", "velocity" });
        score::PatternTempo tempo;
        tempo.beatsPerMinute = readNumber (arguments, "tempo", tempoUnit, { 20.0, 400.0 }, tempo.beatsPerMinute);

        if (const auto steps = arguments.value ("steps"))
            tempo.stepsPerBeat = readCount (*steps, 1, 16, "--steps");

        return { score::readPattern (*text, tempo, "--pattern"), {} };
    }

    engine::Stroke stroke;
    overrideChoice (arguments, "stroke", strokeWords, stroke.kind);
    readPosition (arguments, stroke);
    readSpeed (arguments, stroke);
    return { { { 0.0, stroke } }, {} };
}
} // namespace

const OptionGroup& strokeOptions()
{
    static const OptionGroup group{
        "What is played; without any of these, one stroke with the tip:",
        { { "stroke", "tip|rimshot|...", "tip, rimshot, cross-stick, buzz or double" },
          { "position", "0.25,34deg", "of the tip: share of the radius from the middle, 0 to 0.98, and angle" },
          { "speed", "3m/s", "of the tip when it lands, 0.01 to 12 m/s" },
          { "velocity", "90", "the same as MIDI says it, 1 (0.25 m/s) to 127 (10 m/s)" },
          { "pattern", "\"o7..o2..r8..\"",
            "o off centre, c centre, h half way, e edge, r rimshot, k cross-stick, z buzz,\nd double; a digit 1 to 9 "
            "after it for how hard; . a rest, | a bar line" },
          { "tempo", "100", "beats a minute, 20 to 400" },
          { "steps", "4", "steps of the pattern to a beat, 1 to 16" },
          { "midi", "FILE.mid", "a Standard MIDI File; notes as listed below" },
          { "rim-lag", "0.3ms", "rimshots: hoop after head, -1 to 1 ms" },
          { "press-force", "6N", "buzzes: the hand on the stick, 0.5 to 40 N" },
          { "press-time", "250ms", "buzzes: until the stick lifts, 20 ms to 2 s" },
          { "second-after", "70ms", "doubles: second stroke after the first, 20 to 500 ms" },
          { "second-share", "80%", "doubles: its speed to the first's, 10 to 120 %" } }
    };
    return group;
}

StrokesRead readStrokes (const Arguments& arguments)
{
    auto read = readSource (arguments);

    for (auto& timed : read.strokes)
        readManner (arguments, timed.stroke);

    return read;
}

} // namespace tool
