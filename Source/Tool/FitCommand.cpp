#include "AudioFile.h"
#include "BenchOptions.h"
#include "Command.h"
#include "DrumOptions.h"
#include "OutputFile.h"
#include "TextTable.h"

#include "Files/Quantity.h"
#include "Listening/Partials.h"
#include "Modal/FitTapNotes.h"
#include "Modal/InputError.h"
#include "Modal/Units.h"
#include "Sheets/FitJson.h"

#include <algorithm>
#include <sstream>

namespace tool
{

using namespace modal;

namespace
{
/** What is heard in a walk, one tap a lug; what cannot be used is left out and said. */
struct Walk
{
    std::vector<HeardTap> taps;
    std::string remarks;
};

Walk hearWalk (const std::string& path, const std::string& field, const DrumSpec& drum, bool hasPatch)
{
    const auto recording = loadRecording (path, field);
    const auto taps = listening::findTaps (recording);
    const auto quiet = listening::quietestMoment (recording);

    if (taps.empty() || static_cast<int> (taps.size()) > drum.lugs)
        throw InputError (field, std::to_string (taps.size()) + " taps",
                          "1 to " + std::to_string (drum.lugs) + " taps: one beside each lug, lug 1 first, a second between");

    Walk walk;

    for (std::size_t i = 0; i < taps.size(); ++i)
    {
        for (const auto trouble : taps[i].troubles)
            walk.remarks += "Tap " + std::to_string (i + 1) + ": " + listening::explained (trouble) + ".\n";

        if (taps[i].isUnusable())
        {
            walk.remarks += "Tap " + std::to_string (i + 1) + " is left out.\n";
            continue;
        }

        walk.taps.push_back (
            { .lug = static_cast<int> (i), .hasPatch = hasPatch, .partials = listening::partialsOf (recording, taps[i], quiet) });
    }

    return walk;
}

/** "4g,60mm,100mm,22.5deg": mass, diameter, distance from the middle, angle. */
MufflingItem readPatch (const std::string& text)
{
    std::vector<std::string> parts;
    std::istringstream stream (text);

    for (std::string part; std::getline (stream, part, ',');)
        parts.push_back (part);

    if (parts.size() != 4)
        throw InputError ("--patch", '"' + text + '"',
                          "mass, diameter, distance from the middle and angle from lug 1: \"4g,60mm,100mm,22.5deg\"");

    using files::Quantity;
    MufflingItem patch;
    patch.mass = files::readQuantity (parts[0], Quantity::mass, { 1.0e-4, 0.1 }, "--patch, mass");
    patch.size = files::readQuantity (parts[1], Quantity::length, { 5.0e-3, 0.2 }, "--patch, diameter");
    patch.distance = files::readQuantity (parts[2], Quantity::length, { 0.0, 0.7 }, "--patch, distance");
    patch.angle = files::readQuantity (parts[3], Quantity::angle, { -units::twoPi, units::twoPi }, "--patch, angle");
    return patch;
}

std::string withError (const Estimate& estimate, int decimals, const char* unit)
{
    return fixed (estimate.value, decimals) + " +/- " + fixed (estimate.error, decimals) + " " + unit;
}

std::string reportOf (const HeadFit& fit, const HeadFitSetup& setup)
{
    const auto note = [] (double hertz) { return Note::fromFrequency (hertz).nameWithCents(); };
    std::string text = setup.side == HeadSide::batter ? "BATTER\n" : "RESONANT\n";

    if (fit.isPossible)
    {
        text += "  tap note  " + note (fit.tapNote.value) + "  " + withError (fit.tapNote, 2, "Hz") + "\n";
        text += "  tension   " + withError (fit.tension, 0, "N/m") + "\n";
        text += "  mass      " +
                withError ({ 100.0 * fit.massRatio.value, 100.0 * fit.massRatio.error }, 1, "% of the head's construction") +
                "\n";

        if (fit.lossRatio.error > 0.0)
            text += "  losses    " +
                    withError ({ 100.0 * fit.lossRatio.value, 100.0 * fit.lossRatio.error }, 0,
                               "% of those predicted for film and edge") +
                    "\n";

        TextTable table ({ Align::right, Align::right });
        table.add ({ "LUG", "CENTS OVER THE HEAD" });

        for (std::size_t k = 0; k < fit.lugCents.size(); ++k)
            table.add (
                { std::to_string (k + 1), withSign (fit.lugCents[k].value, 0) + " +/- " + fixed (fit.lugCents[k].error, 0) });

        text += fit.lugCents.empty() ? "" : table.written();

        if (! fit.suspects.empty() && fit.unevenness > 3.0)
        {
            const auto& first = fit.suspects.front();
            text += "  If one lug alone is off it is lug " + std::to_string (first.lug + 1) + ", by " +
                    withSign (first.cents.value, 0) + " +/- " + fixed (first.cents.error, 0) + " cents (probability " +
                    fixed (100.0 * first.probability, 0) + " %).\n";
        }
        else if (! fit.suspects.empty())
        {
            text += "  No lug stands out.\n";
        }
    }
    else
    {
        text += "  No fit.\n";
    }

    for (const auto& doubt : fit.doubts)
        text += "  NOTE  " + doubt + "\n";

    return text;
}

void run (const std::vector<std::string>& words, const Command& command)
{
    const Arguments arguments (words, command.allOptions());
    HeadFitSetup setup;
    setup.drum = chooseDrum (arguments);

    const auto side = arguments.value ("head").value_or ("batter");

    if (side != "batter" && side != "resonant")
        throw InputError ("--head", '"' + side + '"', "batter or resonant");

    setup.side = side == "batter" ? HeadSide::batter : HeadSide::resonant;

    if (const auto tolerance = arguments.value ("mass-tolerance"))
        setup.massTolerance = files::readQuantity (*tolerance, files::Quantity::share, { 0.0, 0.2 }, "--mass-tolerance");

    if (arguments.has ("walk") == arguments.has ("tap-notes"))
        throw InputError ("--walk", arguments.has ("walk") ? "together with --tap-notes" : "a missing value",
                          "a recording of taps, or --tap-notes with what you read off");

    HeadFit fit;
    std::string remarks;

    if (const auto notes = arguments.value ("tap-notes"))
    {
        constexpr double usualReading = 5.0; // cents
        fit = fitTapNotes (setup, readNotes (*notes, {}, "--tap-notes"), usualReading);
    }
    else
    {
        auto walk = hearWalk (*arguments.value ("walk"), "--walk", setup.drum, false);

        if (const auto patch = arguments.value ("patch"))
        {
            setup.patch = readPatch (*patch);
            const auto file = arguments.value ("patch-walk");

            if (! file)
                throw InputError ("--patch-walk", "a missing value", "the recording of the walk with the patch on the head");

            const auto second = hearWalk (*file, "--patch-walk", setup.drum, true);
            walk.taps.insert (walk.taps.end(), second.taps.begin(), second.taps.end());
            walk.remarks += second.remarks;
        }

        if (walk.taps.empty())
            throw InputError ("--walk", "no tap that can be used",
                              "taps with the wires off, each hit once, with time to ring\n" + walk.remarks);

        fit = fitHead (setup, walk.taps);
        remarks = walk.remarks;
    }

    if (const auto json = outputTarget (arguments, "json"))
        writeText (*json, sheets::fitJson (fit, setup.side).written());
    else
        writeText ("-", reportOf (fit, setup) + remarks);
}
} // namespace

const Command& fitCommand()
{
    static const Command command{ "fit",
                                  "From taps to how a head is drawn: tension, uneven lugs, mass, losses",
                                  "[DRUM] [options] --walk FILE.wav | --tap-notes NOTES",
                                  "Every figure comes with one standard deviation; what cannot be told, or cannot be told apart, "
                                  "is said. \"snarewright listen\n"
                                  "--help\" says how to record a walk. A head's notes are the same for a lug and the one "
                                  "opposite: lay a known weight between two\n"
                                  "lugs and walk round again to tell them apart.\n",
                                  { { "What was heard:",
                                      { { "head", "batter|resonant", "which head was tapped; batter if not given" },
                                        { "walk", "FILE", "one tap beside each lug in order, lug 1 first (WAV, AIFF, FLAC)" },
                                        { "tap-notes", "G#3,G#3 -5,...", "or the notes that you read off: one, or one a lug" },
                                        { "patch", "4g,60mm,100mm,22.5deg",
                                          "a weight on the head: mass, diameter, distance from the middle, angle from lug 1" },
                                        { "patch-walk", "FILE", "the walk with that weight on the head" },
                                        { "mass-tolerance", "3%", "of the head, one standard deviation, 0 to 20 %" } } },
                                    { "Output:", { { "json", "FILE", "as JSON", true } } } },
                                  true,
                                  run };
    return command;
}

} // namespace tool
