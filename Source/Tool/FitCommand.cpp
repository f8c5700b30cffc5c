#include "Command.h"
#include "FitReport.h"
#include "HeardFiles.h"
#include "LeftOutPicture.h"
#include "OptionText.h"
#include "OutputFile.h"
#include "PlanOptions.h"
#include "PlayLikeOption.h"
#include "Results.h"
#include "TunedDrum.h"
#include "TuningOptions.h"

#include "Files/Fields.h"
#include "Files/HeadText.h"
#include "Files/Quantity.h"
#include "Fitting/NoteReading.h"
#include "Fitting/TapNotes.h"
#include "Modal/InputError.h"
#include "Modal/Units.h"
#include "Reports/FitJson.h"
#include "Wording/TapText.h"

#include <algorithm>
#include <cmath>
#include <iterator>

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

    if (const auto text = arguments.value ("model-error"))
        setup.modelError = readCount (*text, 1, 50, "--model-error");

    return setup;
}

modal::ConcertPitch pitchOf (const Arguments& arguments)
{
    return concertPitchAsked (arguments).value_or (modal::ConcertPitch{});
}

/** The tap note that an option names, as a person reads it. */
std::optional<Estimate> readTapNote (const Arguments& arguments, const std::string& option)
{
    const auto text = arguments.value (option);

    if (! text)
        return std::nullopt;

    const auto notes = readNotes (*text, pitchOf (arguments), "--" + option);

    if (notes.size() != 1)
        throw InputError ("--" + option, '"' + *text + '"', "one note, as in G#3 -5");

    return fitting::readNote (notes.front());
}

/** The lines of the recording that goes with another option. */
std::vector<Line> linesBeside (const Arguments& arguments, const std::string& option, const std::string& recording)
{
    const auto files = arguments.value (recording);

    if (! files)
        throw InputError::fault ("--" + recording, "is missing", "the strikes that go with --" + option);

    return listening::linesOf (hearStrikes (*files, "--" + recording).strikes);
}

/** Strikes after a turn of every rod of one head, and with a weight on the batter head. */
void readSecondRecordings (const Arguments& arguments, DrumFitSetup& setup)
{
    if (const auto text = arguments.value ("turned"))
    {
        const auto words = splitAt (*text, ' ');

        if (words.size() != 2 || (words[0] != "batter" && words[0] != "resonant"))
            throw InputError ("--turned", '"' + *text + '"', "head and turns of every rod: \"batter 1/8\"");

        TurnedHead turned{ .side = words[0] == "batter" ? HeadSide::batter : HeadSide::resonant };
        turned.turns = requireInRange (readTurns (words[1], "--turned"), fitting::turnedRange, "--turned");
        turned.lines = linesBeside (arguments, "turned", "strikes-turned");
        setup.turned = std::move (turned);
    }

    if (const auto text = arguments.value ("centre-weight"))
    {
        const auto parts = splitAt (*text, ',');

        if (parts.size() != 2)
            throw InputError ("--centre-weight", '"' + *text + '"', "mass and diameter: \"2g,20mm\"");

        const auto limits = [] (const modal::Range& range) { return files::Limits{ range.low, range.high }; };
        WeightedHead weighted;
        weighted.mass =
            files::readQuantity (parts[0], files::Quantity::mass, limits (fitting::centreWeightRange), "--centre-weight, mass");
        weighted.size = files::readQuantity (parts[1], files::Quantity::length, limits (fitting::centreWeightSizeRange),
                                             "--centre-weight, diameter");
        weighted.lines = linesBeside (arguments, "centre-weight", "strikes-with-weight");
        setup.weighted = std::move (weighted);
    }
}

DrumFitSetup readDrumSetup (const Arguments& arguments, const HeadFitSetup& heads)
{
    DrumFitSetup setup{ .drum = heads.drum, .massTolerance = heads.massTolerance, .modelError = heads.modelError };
    setup.batterNote = readTapNote (arguments, "now-batter");
    setup.resonantNote = readTapNote (arguments, "now-resonant");

    if (const auto text = arguments.value ("or-diameter"))
        for (const auto& one : splitAt (*text, ','))
            setup.otherDiameters.push_back (files::readQuantity (one, &DrumSpec::diameter, "--or-diameter"));

    for (const auto& [option, others] :
         { std::pair{ "or-batter", &setup.otherBatters }, { "or-resonant", &setup.otherResonants } })
        if (const auto text = arguments.value (option))
            for (const auto& one : splitAt (*text, ','))
                others->push_back (files::readHeadText (one, std::string ("--") + option));

    readSecondRecordings (arguments, setup);
    return setup;
}

/** Fits every other strike and predicts the rest, then the other way round. */
void checkByLeavingOut (const DrumFitSetup& setup, const HeardStrikes& heard, const Arguments& arguments)
{
    std::vector<listening::Strike> halves[2];

    for (std::size_t i = 0; i < heard.strikes.size(); ++i)
        halves[i % 2].push_back (heard.strikes[i]);

    if (halves[1].empty())
        throw InputError ("--leave-out", "one strike", "at least two strikes that can be used");

    const std::vector<Line> lines[2]{ listening::linesOf (halves[0]), listening::linesOf (halves[1]) };
    std::string text;

    std::vector<LeftOutCheck> checks;

    for (std::size_t used = 0; used < 2; ++used)
    {
        checks.push_back (checkLeftOut (setup, lines[used], static_cast<int> (halves[used].size()), lines[1 - used]));
        text += textOf (checks.back(), static_cast<int> (halves[1 - used].size()));
    }

    writeLeftOutPicture (arguments, checks);
    writeText ("-", text + heard.remarks);
}

/** From strikes of the whole drum; what a person added is left out once, to show how much it narrows the result. */
void fitStrikes (const DrumFitSetup& setup, const HeardStrikes& heard, const Arguments& arguments, const std::string& date)
{
    const auto lines = listening::linesOf (heard.strikes);
    const auto strikes = static_cast<int> (heard.strikes.size());
    const auto fit = fitDrum (setup, lines, strikes);
    auto text = textOf (fit, setup.drum, setup.modelError, pitchOf (arguments));

    if (setup.batterNote || setup.resonantNote || setup.turned || setup.weighted)
    {
        auto without = setup;
        without.batterNote = without.resonantNote = std::nullopt;
        without.turned = std::nullopt;
        without.weighted = std::nullopt;
        text += narrowedText (fitDrum (without, lines, strikes), fit);
    }

    writeJsonAndText (arguments, reports::fitJson (fit, date, pitchOf (arguments)), text + heard.remarks);
}

/** Throws for an option that only another kind of recording uses. */
void refuseUnused (const Arguments& arguments, const std::string& recording, const std::vector<std::string>& options,
                   const std::string& usedBy)
{
    for (const auto& option : options)
        if (arguments.has (option))
            throw InputError ("--" + option, "together with --" + recording, usedBy);
}

/** Throws for options that the recording given does not use. */
void checkOptions (const Arguments& arguments)
{
    if (arguments.has ("play-like"))
        return refuseUnused (arguments, "play-like",
                             { "lug-check", "tap-notes", "head", "weight", "lug-check-with-weight", "leave-out", "picture" },
                             "a fit without --play-like");

    const std::string recordings[] = { "lug-check", "tap-notes", "strikes" };

    if (std::count_if (std::begin (recordings), std::end (recordings), [&] (const auto& one) { return arguments.has (one); }) !=
        1)
        throw InputError::fault ("recording", "is missing or given in two ways", "one of --lug-check, --strikes and --tap-notes");

    for (const auto& recording : recordings)
    {
        if (! arguments.has (recording))
            continue;

        if (recording != "strikes")
            refuseUnused (arguments, recording,
                          { "leave-out", "picture", "now-batter", "now-resonant", "or-batter", "or-resonant", "or-diameter",
                            "turned", "strikes-turned", "centre-weight", "strikes-with-weight" },
                          "--strikes: it says something about strikes of the whole drum");
        else
            refuseUnused (arguments, recording, { "head" }, "--lug-check or --tap-notes: strikes measure both heads");

        if (recording != "lug-check")
            refuseUnused (arguments, recording, { "weight", "lug-check-with-weight" }, "--lug-check");

        if (recording == "tap-notes")
            refuseUnused (arguments, recording, { "model-error" },
                          "--lug-check or --strikes: a tap note that was read has no such error");
    }
}

void runFit (const std::vector<std::string>& words, const Command& command)
{
    const auto arguments = command.read (words);
    checkOptions (arguments);
    const auto setup = readSetup (arguments);
    const auto date = readDate (arguments);

    if (arguments.has ("play-like"))
        return playLike (arguments, readDrumSetup (arguments, setup));

    if (const auto files = arguments.value ("strikes"))
    {
        const auto drumSetup = readDrumSetup (arguments, setup);
        const auto heard = hearStrikes (*files, "--strikes");

        if (arguments.has ("leave-out"))
            checkByLeavingOut (drumSetup, heard, arguments);
        else
            fitStrikes (drumSetup, heard, arguments, date);

        return;
    }

    HeadFit fit;
    std::string remarks;

    if (const auto notes = arguments.value ("tap-notes"))
    {
        constexpr double usualReading = 5.0; // cents
        fit = fitTapNotes (setup, readNotes (*notes, pitchOf (arguments), "--tap-notes"), usualReading);
    }
    else
    {
        fit = fitLugCheck (setup, arguments, remarks);
    }

    writeJsonAndText (arguments, reports::fitJson (reports::MeasuredHead{ setup.side, fit, date }, setup.drum),
                      textOf (fit, setup.side, setup.drum, pitchOf (arguments)) + remarks);
}
} // namespace

const Command& fitCommand()
{
    static const Command command{
        "fit",
        "Measures tension, uneven lugs, mass and losses of the heads from recorded taps or strikes",
        "[DRUM] [options] --lug-check FILE.wav | --strikes FILE.wav | --tap-notes NOTES | --play-like FILE.wav",
        "Every figure has an uncertainty (one standard deviation). \"snarewright listen --help\" explains how to record a lug "
        "check. A lug and\n"
        "the lug opposite sound alike; a second lug check with a known weight on the head between two lugs can tell them "
        "apart.\n\n"
        "--strikes takes recordings of the whole drum, both heads free, wires off, no muffling: a few strikes in the centre, "
        "half way\n"
        "and near the edge, best with one microphone above and one below (two files). The exact places do not matter.\n"
        "Strikes of a snare drum harm hearing within minutes: wear ear protection while you record.\n",
        { { "Recordings:",
            { { "head", "batter|resonant", "the head that was tapped; batter if not given" },
              { "lug-check", "FILE",
                "one tap beside each lug, clockwise seen from above, lug 1 first, one or more rounds;\nor a single tap (WAV, "
                "AIFF, FLAC)" },
              { "strikes", "FILE,FILE...", "or strikes of the finished drum, each left to ring; or a folder of recordings" },
              { "leave-out", "", "with --strikes: fit half of the strikes and show how well they predict the other half" },
              { "tap-notes", "G#3,G#3 -5,...", "or the tap notes that you read: one, or one for each lug" },
              { "weight", "4g,60mm,100mm,22.5deg",
                "a weight on the head: mass, diameter, distance from the centre, angle from lug 1 towards\nlug 2" },
              { "lug-check-with-weight", "FILE", "the lug check with that weight on the head" },
              { "now-batter", "G#3 -5", "with --strikes: the batter's tap note as you read it, the other head held still" },
              { "now-resonant", "C4", "the same for the resonant head" },
              { "or-batter", "7mil,2x7mil,...",
                "with --strikes: other heads that may be on, as for --batter; each gives answers" },
              { "or-resonant", "2mil,5mil,...", "the same for the resonant head" },
              { "turned", "\"batter 1/8\"",
                "with --strikes: the head, and how far every one of its rods was turned before --strikes-turned" },
              { "strikes-turned", "FILE,FILE...", "strikes recorded after that", false, { "turned" } },
              { "centre-weight", "2g,20mm",
                "with --strikes: mass and diameter of a weight stuck to the centre of the batter head "
                "for\n--strikes-with-weight" },
              { "strikes-with-weight", "FILE,FILE...", "strikes recorded with it", false, { "centre-weight" } },
              { "or-diameter", "13in,...", "with --strikes: other diameters that the drum may have; each gives answers" },
              { "model-error", "18", "how far a mode of a real drum may be from the model's, cents, 1 to 50" },
              { "mass-tolerance", "3%", "uncertainty of a head's mass, one standard deviation, 0 to 20 %" },
              { "date", "2024-05-17", "the date for the JSON and the sheet" } } },
          playLikeOptions(),
          { "Output:",
            { { "picture", "FILE", "the partials left out over the modes predicted (.svg, .pdf, .png)", false, { "leave-out" } },
              { "json", "FILE",
                "JSON to a file, besides the text, for plan --now-from and sheet --measured; without a\nfile, or with -, JSON to "
                "standard output instead",
                true } } } },
        true,
        runFit
    };
    return command;
}

} // namespace tool
