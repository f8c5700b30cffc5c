#include "Command.h"
#include "FitReport.h"
#include "HeardFiles.h"
#include "OptionText.h"
#include "PlanOptions.h"
#include "Results.h"
#include "TunedDrum.h"

#include "Files/Quantity.h"
#include "Fitting/TapNotes.h"
#include "Modal/InputError.h"
#include "Modal/Units.h"
#include "Reports/FitJson.h"
#include "Wording/TapText.h"

namespace tool
{

using namespace fitting;
using namespace modal;

namespace
{
/** "4g,60mm,100mm,22.5deg": mass, diameter, distance from the centre, angle. */
MufflingItem readWeight (const std::string& text)
{
    const auto parts = splitAt (text, ',');

    if (parts.size() != 4)
        throw InputError ("--weight", '"' + text + '"',
                          "mass, diameter, distance from the centre and angle from lug 1: \"4g,60mm,100mm,22.5deg\"");

    using files::Quantity;
    MufflingItem weight;
    weight.mass = files::readQuantity (parts[0], Quantity::mass, { 1.0e-4, 0.1 }, "--weight, mass");
    weight.size = files::readQuantity (parts[1], Quantity::length, { 5.0e-3, 0.2 }, "--weight, diameter");
    weight.distance = files::readQuantity (parts[2], Quantity::length, { 0.0, 0.7 }, "--weight, distance");
    weight.angle = files::readQuantity (parts[3], Quantity::angle, { -units::twoPi, units::twoPi }, "--weight, angle");
    return weight;
}

/** From taps beside the lugs. */
HeadFit fitLugCheck (HeadFitSetup setup, const Arguments& arguments, std::string& remarks)
{
    auto check = hearLugCheck (*arguments.value ("lug-check"), "--lug-check", setup.drum, false);

    if (const auto weight = arguments.value ("weight"))
    {
        setup.patch = readWeight (*weight);
        const auto file = arguments.value ("lug-check-with-weight");

        if (! file)
            throw InputError::fault ("--lug-check-with-weight", "is missing",
                                     "the recording of the lug check with the weight on the head");

        const auto second = hearLugCheck (*file, "--lug-check-with-weight", setup.drum, true);
        check.taps.insert (check.taps.end(), second.taps.begin(), second.taps.end());
        remarks = wording::remarks (second);
    }

    remarks = wording::remarks (check) + remarks;

    if (check.taps.empty())
        throw InputError::fault ("--lug-check " + *arguments.value ("lug-check"), "has no tap that can be used",
                                 "taps with the wires off, each a single hit, with time to ring\n" + remarks);

    return fitHead (setup, check.taps);
}

HeadFitSetup readSetup (const Arguments& arguments)
{
    HeadFitSetup setup;
    setup.drum = chooseDrum (arguments);

    overrideChoice (arguments, "head", { "batter", "resonant" }, setup.side);
    setup.massTolerance = readNumber (arguments, "mass-tolerance", files::Quantity::share, { 0.0, 0.2 }, setup.massTolerance);
    return setup;
}

void run (const std::vector<std::string>& words, const Command& command)
{
    const Arguments arguments (words, command.allOptions());
    const auto setup = readSetup (arguments);
    const auto date = readDate (arguments);

    if (arguments.has ("lug-check") + arguments.has ("tap-notes") + arguments.has ("strikes") != 1)
        throw InputError::fault ("recording", "is missing or given in two ways", "one of --lug-check, --strikes and --tap-notes");

    if (const auto files = arguments.value ("strikes"))
    {
        if (arguments.has ("head"))
            throw InputError ("--head", "together with --strikes", "--lug-check or --tap-notes: strikes measure both heads");

        const auto heard = hearStrikes (*files, "--strikes");
        const auto fit = fitDrum ({ .drum = setup.drum, .massTolerance = setup.massTolerance },
                                  listening::linesOf (heard.strikes), static_cast<int> (heard.strikes.size()));
        writeJsonAndText (arguments, reports::fitJson (fit, date), textOf (fit, setup.drum) + heard.remarks);
        return;
    }

    HeadFit fit;
    std::string remarks;

    if (const auto notes = arguments.value ("tap-notes"))
    {
        constexpr double usualReading = 5.0; // cents
        fit = fitTapNotes (setup, readNotes (*notes, {}, "--tap-notes"), usualReading);
    }
    else
    {
        fit = fitLugCheck (setup, arguments, remarks);
    }

    writeJsonAndText (arguments, reports::fitJson (reports::MeasuredHead{ setup.side, fit, date }),
                     textOf (fit, setup.side, setup.drum) + remarks);
}
} // namespace

const Command& fitCommand()
{
    static const Command command{
        "fit",
        "Measures tension, uneven lugs, mass and losses of the heads from recorded taps or strikes",
        "[DRUM] [options] --lug-check FILE.wav | --strikes FILE.wav | --tap-notes NOTES",
        "Every figure has an uncertainty (one standard deviation). \"snarewright listen --help\" explains how to record a lug "
        "check. "
        "A lug and\n"
        "the lug opposite sound alike; a second lug check with a known weight on the head between two lugs can tell them "
        "apart.\n\n"
        "--strikes takes recordings of the whole drum, both heads free, wires off, no muffling: a few strikes in the centre, "
        "half way\n"
        "and near the edge, best with one microphone above and one below (two files). The exact places do not matter.\n",
        { { "Recordings:",
            { { "head", "batter|resonant", "the head that was tapped; batter if not given" },
              { "lug-check", "FILE",
                "one tap beside each lug, clockwise seen from above, lug 1 first, one or more rounds;\nor a single tap (WAV, "
                "AIFF, "
                "FLAC)" },
              { "strikes", "FILE,FILE...", "or strikes of the finished drum, each left to ring" },
              { "tap-notes", "G#3,G#3 -5,...", "or the tap notes that you read: one, or one for each lug" },
              { "weight", "4g,60mm,100mm,22.5deg",
                "a weight on the head: mass, diameter, distance from the centre, angle from lug 1 towards\nlug 2" },
              { "lug-check-with-weight", "FILE", "the lug check with that weight on the head" },
              { "mass-tolerance", "3%", "uncertainty of a head's mass, one standard deviation, 0 to 20 %" },
              { "date", "2024-05-17", "the date for the JSON and the sheet" } } },
          { "Output:", { { "json", "FILE", "JSON to a file, besides the text, for plan --now-from and sheet --measured; without a\nfile, or with -, JSON to standard output instead", true } } } },
        true,
        run
    };
    return command;
}

} // namespace tool
