#include "Command.h"
#include "DrumOptions.h"
#include "FindOptions.h"
#include "FindText.h"
#include "HardwareOptions.h"
#include "OptionText.h"
#include "OutputFile.h"
#include "OutputTarget.h"
#include "Progress.h"
#include "Results.h"

#include "Modal/InputError.h"
#include "Reports/FindJson.h"
#include "Score/MidiNotes.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <iostream>
#include <numeric>
#include <random>

namespace tool
{

using namespace finding;

namespace
{

/** Options that hand the list to another command. */
const OptionGroup& listOptions()
{
    static const OptionGroup group{
        "The list:",
        { jsonOption,
          { "hear", "FILE.wav", "play every tuning on the list at one loudness: FILE-1.wav, FILE-2.wav and so on" },
          { "one-file", "ALL.wav", "also all of them in one file, one after the other with a second of silence between", false, { "hear" } },
          { "midi", "FILE.mid", "what to play there: a Standard MIDI File", false, { "hear" } },
          { "pattern", "\"o7..o2..r8..\"", "or a pattern, as in \"render\"; the softest, usual and loudest stroke if not given", false,
            { "hear" } },
          { "blind", "KEY.txt", "play them in a hidden order; the order goes to this file", false, { "hear" } },
          { "plan", "1", "make the plan for the rods for this tuning of the list, from the tuning now" },
          { "sheet", "FILE.pdf", "write the sheet for it (the first, or that of --plan)" },
          { "progress", "", "show progress even if standard error is not a terminal" } }
    };
    return group;
}

std::optional<Present> presentOf (const FindRequest& request, const modal::DrumTuner& tuner)
{
    if (! request.presentTuning)
        return std::nullopt;

    const auto tensions = tuner.tensionsFor (*request.presentTuning);
    return Present{ tuner.notes (modal::HeadSide::batter).at (tensions.batter),
                    tuner.notes (modal::HeadSide::resonant).at (tensions.resonant) };
}

/** The result of a search and the maps it used. */
struct Search
{
    modal::DrumTuner tuner;
    std::optional<Present> present;
    std::shared_ptr<const PlayedMap> played;
    FindResult result;
    std::optional<place::NoteAtListener> inPlace;
};

Search search (const FindRequest& request, bool showsProgress)
{
    // An interrupt ends the program before it begins a file.
    const std::atomic<bool> cancel{ false };
    Search found{ modal::DrumTuner (request.drum), {}, {}, {}, {} };
    found.present = presentOf (request, found.tuner);
    const auto solver = solverFor (found.tuner);
    const auto area = areaOf (found.tuner, request.batterStrength, request.resonantStrength);
    Progress progress (showsProgress);
    const bool plays = needsPlaying (request.wishes);
    const double solvingShare = plays ? 0.2 : 1.0;
    const auto map = TuningMap::make (found.tuner, solver, area, stepFor (request.drum), 0, cancel,
                                      [&] (double share) { progress.show (solvingShare * share); });

    if (request.playing.place)
        found.inPlace.emplace (*request.playing.place);

    auto playing = request.playing;

    if (! isWished (request.wishes, Figure::wiresCarry))
        playing.place.reset();

    if (plays)
        found.played = PlayedMap::make (found.tuner, playing, area, playedStep, 0, cancel,
                                        [&] (double share) { progress.show (solvingShare + (1.0 - solvingShare) * share); });

    found.result = find (
        { found.tuner, solver, *map, found.played.get(), std::nullopt, found.present, found.inPlace ? &*found.inPlace : nullptr },
        request.wishes);
    return found;
}

/** The player's softest, usual and loudest stroke at the player's place, as near as a pattern has them. */
std::string playersPart (const Hand& hand)
{
    constexpr std::array<std::pair<char, double>, 4> places{ { { 'c', 0.03 }, { 'o', 0.25 }, { 'h', 0.5 }, { 'e', 0.88 } } };
    const auto nearest = std::min_element (places.begin(), places.end(),
                                           [&] (const auto& a, const auto& b)
                                           { return std::abs (a.second - hand.place) < std::abs (b.second - hand.place); });
    std::string part;

    for (const double speed : { hand.softest, hand.usual, hand.loudest })
    {
        int dynamic = 1;

        for (int other = 2; other <= 9; ++other)
            if (std::abs (std::log (score::speedOfVelocity (14 * other) / speed)) <
                std::abs (std::log (score::speedOfVelocity (14 * dynamic) / speed)))
                dynamic = other;

        part += std::string (1, nearest->first) + std::to_string (dynamic) + ".......";
    }

    return part;
}

/** Plays the list with the command that renders tunings side by side, in this order or, blind, in a hidden one. */
void hear (const Arguments& arguments, const FindRequest& request, const std::vector<FoundTuning>& list,
           const std::string& target)
{
    std::vector<std::size_t> order (list.size());
    std::iota (order.begin(), order.end(), std::size_t{ 0 });
    const auto key = outputTarget (arguments, "blind");

    if (key)
        std::shuffle (order.begin(), order.end(), std::mt19937 (std::random_device{}()));

    std::vector<std::string> words;
    const std::string tempo = "tempo"; // of a pattern; a MIDI file has its own

    for (const auto number : order)
    {
        const auto tuning = heardWordsFor (request, list[number]);

        if (! words.empty())
            words.emplace_back ("vs");

        words.insert (words.end(), tuning.begin(), tuning.end());

        if (number == order.front())
        {
            words.insert (words.end(), { "--loudness", "-23LUFS", "--output", target });

            if (! arguments.has ("midi") && ! arguments.has ("pattern"))
                words.insert (words.end(), { "--pattern", playersPart (request.playing.hand) });

            for (const auto* option : { "one-file", "midi", "pattern", "tempo" })
                if (const auto value = arguments.value (option); value && (option != tempo || arguments.has ("pattern")))
                    words.insert (words.end(), { "--" + std::string (option), *value });
        }
    }

    renderCommand().run (words, renderCommand());

    if (! key)
        return;

    std::string text;

    for (std::size_t i = 0; i < order.size(); ++i)
        text += "file " + std::to_string (i + 1) + ": tuning " + std::to_string (order[i] + 1) + " of the list, " +
                list[order[i]].kind + "\n";

    writeText (*key, text);
}

void goOn (const Arguments& arguments, const FindRequest& request, const Search& found)
{
    const auto& list = found.result.list;
    const auto plan = arguments.value ("plan");
    const auto sheet = outputTarget (arguments, "sheet", { ".pdf", ".svg", ".png" });

    if ((plan || sheet) && ! found.present)
        throw modal::InputError::fault (plan ? "--plan" : "--sheet", "has no tuning to start from",
                                        "--now-batter and --now-resonant, or a drum that has tunings");

    if ((plan || sheet || arguments.has ("hear")) && list.empty())
        throw modal::InputError ("the list", "an empty one", "wishes that some tuning comes near");

    const auto number = plan ? readCount (*plan, 1, static_cast<int> (list.size()), "--plan") : 1;

    if (plan)
        planCommand().run (planWordsFor (request, list[static_cast<std::size_t> (number - 1)], *found.present), planCommand());

    if (sheet)
    {
        auto words = planWordsFor (request, list[static_cast<std::size_t> (number - 1)], *found.present);
        words.insert (words.end(), { "--output", *sheet });
        sheetCommand().run (words, sheetCommand());
    }

    if (const auto target = outputTarget (arguments, "hear", { ".wav" }))
        hear (arguments, request, list, *target);
}

void runFind (const std::vector<std::string>& words, const Command& command)
{
    const auto arguments = command.read (words);

    if (const auto plan = arguments.value ("plan"))
        readCount (*plan, 1, static_cast<int> (mostFound), "--plan");

    const auto request = readFindRequest (arguments);
    const auto found = search (request, arguments.has ("progress"));
    writeJsonAndText (arguments,
                      reports::findJson (request.label, request.wishes, found.result, request.concertPitch, found.played.get()),
                      findText (request, found.result, found.played.get()));
    goOn (arguments, request, found);
}

std::vector<OptionGroup> allFindOptions()
{
    auto groups = findOptions();
    groups.push_back (listOptions());
    groups.push_back (drumOptions());
    groups.push_back (hardwareOptions());
    return groups;
}

} // namespace

const Command& findCommand()
{
    static const Command command{
        "find",
        "Finds tunings that meet wishes: drum note, ring, interval, snare response, heads that stay",
        "[DRUM] [wishes] [song] [options]",
        "Searches all tap notes of both heads in steps of five cents and lists at most five tunings of different kinds: what each\n"
        "meets, what it misses and by how much, how far each head moves. If no tuning meets all wishes, it says which of them\n"
        "exclude each other. Wishes about played strokes take some seconds.\n\n"
        "  snarewright find maple-14x5 --drum-note D3:E3 --ring :0.6s --resonant-move stays\n"
        "  snarewright find maple-14x5 --key \"D minor\" --tempo 120 --hand 0.2,3,6 --position 0.5 --hear list.wav --blind "
        "key.txt\n"
        "\nPlay files at low volume first: a drum's attack is much louder than its average, and loud playback harms hearing.\n",
        allFindOptions(),
        false,
        runFind
    };
    return command;
}

} // namespace tool
