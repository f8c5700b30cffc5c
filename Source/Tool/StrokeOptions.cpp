#include "StrokeOptions.h"

#include "OptionText.h"

#include "Engine/StrokeLimits.h"
#include "Files/Fields.h"
#include "Modal/InputError.h"
#include "Modal/Units.h"
#include "Score/MidiNotes.h"
#include "Score/PatternText.h"
#include "SoundFiles/MidiPart.h"

#include <algorithm>

namespace tool
{

using namespace files;

namespace
{
/** In the order of engine::StrokeKind. */
const std::vector<std::string> strokeWords{ "tip", "rimshot", "cross-stick", "buzz", "double", "sweep" };

const std::vector<std::string> sweepWords{ "circle", "straight" };

constexpr double usualSweepSpeed = 0.5; // m/s

/** "0.3" or "0.3,45deg". */
void readPosition (const Arguments& arguments, engine::Stroke& stroke)
{
    constexpr Limits angleLimits{ -modal::units::twoPi, modal::units::twoPi };
    const auto text = arguments.value ("position");

    if (! text)
        return;

    const auto comma = text->find (',');
    stroke.position = readQuantity (text->substr (0, comma), Quantity::share, limitsOf (engine::strokeLimits::position),
                                    "--position, share of the radius");

    if (comma != std::string::npos)
        stroke.angle = readQuantity (text->substr (comma + 1), Quantity::angle, angleLimits, "--position, angle");
}

void readSpeed (const Arguments& arguments, engine::Stroke& stroke)
{
    if (arguments.has ("speed") && arguments.has ("velocity"))
        throw modal::InputError::fault ("--velocity", "is given beside --speed", "one of the two");

    const bool isSweep = stroke.kind == engine::StrokeKind::sweep;
    stroke.speed =
        isSweep ? readNumber (arguments, "speed", Quantity::speed, limitsOf (engine::strokeLimits::sweepSpeed), usualSweepSpeed)
                : readNumber (arguments, "speed", Quantity::speed, limitsOf (engine::strokeLimits::speed), stroke.speed);

    if (const auto velocity = arguments.value ("velocity"))
    {
        const int value = readCount (*velocity, 1, 127, "--velocity");
        stroke.speed = score::speedOfVelocity (value, stroke.kind);
    }
}

/** Options that hold for every stroke of a kind. */
void readManner (const Arguments& arguments, engine::Stroke& stroke)
{
    using namespace engine::strokeLimits;
    const auto take = [&] (const char* option, const Quantity& quantity, const modal::Range& range, double& value)
    { value = readNumber (arguments, option, quantity, limitsOf (range), value); };

    take ("rim-delay", Quantity::time, rimDelay, stroke.rimLag);
    take ("press-force", Quantity::force, pressForce, stroke.pressForce);
    take ("press-time", Quantity::time, pressTime, stroke.pressTime);
    take ("sweep-force", Quantity::force, sweepForce, stroke.sweepForce);
    take ("sweep-time", Quantity::time, sweepTime, stroke.sweepTime);
    take ("second-after", Quantity::time, secondDelay, stroke.secondDelay);
    take ("second-share", Quantity::share, secondShare, stroke.secondShare);

    if (const auto path = readWord (arguments, "sweep-path", sweepWords))
        stroke.sweepsStraight = *path == 1;
}

/** Refuses options of a single stroke beside a pattern or a MIDI file. */
void refuseBeside (const Arguments& arguments, const char* score, std::initializer_list<const char*> options)
{
    for (const auto* option : options)
        if (arguments.has (option))
            throw modal::InputError::fault (std::string ("--") + option, "is given beside --" + std::string (score),
                                            "one of the two: --" + std::string (score) + " sets these itself");
}

score::StrokesRead readSource (const Arguments& arguments, const std::optional<files::PatternSpec>& ofDrum, bool hasBrush)
{
    if (const auto path = arguments.value ("midi"))
    {
        refuseBeside (arguments, "midi", { "pattern", "tempo", "steps", "stroke", "position", "speed", "velocity" });
        return soundfiles::readMidiPart (*path, "--midi", hasBrush);
    }

    if (const auto text = arguments.value ("pattern"))
    {
        refuseBeside (arguments, "pattern", { "stroke", "position", "speed", "velocity" });
        score::PatternTempo tempo;
        tempo.beatsPerMinute = readTempo (arguments, tempo.beatsPerMinute);

        if (const auto steps = arguments.value ("steps"))
            tempo.stepsPerBeat = readCount (*steps, 1, 16, "--steps");

        return { score::readPattern (*text, tempo, "--pattern"), {} };
    }

    const auto single = { "stroke", "position", "speed", "velocity" };

    if (ofDrum && std::none_of (single.begin(), single.end(), [&] (const char* option) { return arguments.has (option); }))
        return { score::readPattern (ofDrum->strokes, { ofDrum->tempo, ofDrum->stepsPerBeat }, "pattern.strokes"), {} };

    engine::Stroke stroke;
    overrideChoice (arguments, "stroke", strokeWords, stroke.kind);
    readPosition (arguments, stroke);
    readSpeed (arguments, stroke);
    return { { { 0.0, stroke } }, {} };
}
} // namespace

const OptionGroup& strokeOptions()
{
    using namespace engine::strokeLimits;

    static const OptionGroup group{
        "What to play; if nothing is given, one stroke with the tip:",
        { { "stroke", "tip|rimshot|...", "tip, rimshot, cross-stick, buzz, double, or with a brush sweep" },
          { "position", "0.25,34deg",
            "strike point: share of the radius from the centre, 0 to 0.98, and angle\nclockwise from lug 1 (where the wires "
            "end), seen from above" },
          { "speed", "3m/s", "speed of the tip at the head, 0.01 to 12 m/s; of a sweep along it, 0.02 to 3 m/s (0.5)" },
          { "velocity", "90", "or as a MIDI velocity, 1 (0.25 m/s) to 127 (10 m/s)" },
          { "pattern", "\"o7..o2..r8..\"",
            "o off centre, c centre, h half way, e edge, r rimshot, k cross-stick, z buzz,\nd double, s sweep in a circle, w "
            "straight, - sweep on for another step; a digit 1 to 9\nafter a stroke for how hard; . a rest, | a bar line" },
          { "tempo", "100", "beats per minute, 20 to 400" },
          { "steps", "4", "steps per beat of the pattern, 1 to 16", false, { "pattern" } },
          { "midi", "FILE.mid", "a Standard MIDI File; notes as listed below" },
          { "rim-delay", "0.2ms", "rimshot: rim delay, " + Quantity::time.limitsText (limitsOf (rimDelay)) },
          { "press-force", "2.5N",
            "buzz: force of the hand on the stick, " + Quantity::force.limitsText (limitsOf (pressForce)) },
          { "press-time", "250ms", "buzz: time until the stick lifts, " + Quantity::time.limitsText (limitsOf (pressTime)) },
          { "sweep-force", "0.3N",
            "sweep: force of the brush on the head, " + Quantity::force.limitsText (limitsOf (sweepForce)) },
          { "sweep-time", "0.6s", "sweep: time until the brush lifts, " + Quantity::time.limitsText (limitsOf (sweepTime)) },
          { "sweep-path", "circle", "sweep: circle (round the centre) or straight (through it, ends at the rim)" },
          { "second-after", "70ms",
            "double: time from first to second stroke, " + Quantity::time.limitsText (limitsOf (secondDelay)) },
          { "second-share", "0.8",
            "double: speed of the second stroke as a share of the first, " +
                Quantity::share.limitsText (limitsOf (secondShare)) } }
    };
    return group;
}

score::StrokesRead readStrokes (const Arguments& arguments, const std::optional<files::PatternSpec>& ofDrum, bool hasBrush)
{
    auto read = readSource (arguments, ofDrum, hasBrush);

    score::requireBrushForSweeps (read.strokes, hasBrush, "a brush, such as --stick brush-wire");

    for (auto& timed : read.strokes)
        readManner (arguments, timed.stroke);

    return read;
}

} // namespace tool
