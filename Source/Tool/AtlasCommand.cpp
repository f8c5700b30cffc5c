#include "Command.h"
#include "OptionText.h"
#include "Progress.h"
#include "Results.h"
#include "TunedDrum.h"
#include "TuningOptions.h"

#include "Files/TuningRequest.h"
#include "Modal/InputError.h"
#include "Sheets/AtlasMap.h"

#include <algorithm>
#include <cmath>
#include <iostream>

namespace tool
{
namespace
{
constexpr int mostColumns = 500;

sheets::AtlasRequest readRequest (const Arguments& arguments)
{
    sheets::AtlasRequest request;
    request.drum = chooseDrum (arguments);
    request.concertPitch = concertPitchAsked (arguments).value_or (request.concertPitch);

    for (const auto* option : { "tuning", "batter-note", "resonant-note", "interval", "drum-note", "batter-tension",
                                "resonant-tension", "batter-lugs", "resonant-lugs" })
        if (arguments.has (option))
            throw modal::InputError::fault (std::string ("--") + option,
                                            "cannot apply to an atlas, which goes over a range of tunings",
                                            "--lowest-note, --highest-note, --lowest-interval, --highest-interval");

    const auto note = [&] (const char* option, const char* usual, double& hertz)
    { hertz = files::readNote (arguments.value (option).value_or (usual), request.concertPitch, std::string ("--") + option); };
    const auto interval = [&] (const char* option, double& semitones)
    {
        if (const auto text = arguments.value (option))
            semitones = modal::Interval::parse (*text, std::string ("--") + option).semitones;
    };
    const auto count = [&] (const char* option, int& number)
    {
        if (const auto text = arguments.value (option))
            number = readCount (*text, 1, mostColumns, std::string ("--") + option);
    };

    note ("lowest-note", "D3", request.lowestNote);
    note ("highest-note", "D4", request.highestNote);

    // Two to a semitone, so that from note to note every other column stands on one.
    request.notes =
        std::clamp (static_cast<int> (std::lround (modal::centsBetween (request.lowestNote, request.highestNote) / 50.0)) + 1, 1,
                    mostColumns);
    count ("notes", request.notes);
    interval ("lowest-interval", request.lowestInterval);
    interval ("highest-interval", request.highestInterval);
    count ("intervals", request.intervals);

    if (const auto threads = arguments.value ("threads"))
        request.threads = static_cast<unsigned> (readCount (*threads, 1, 64, "--threads"));

    return request;
}

sheets::Atlas makeWithProgress (const sheets::AtlasRequest& request, bool isWanted)
{
    Progress progress (isWanted);

    // An interrupt ends the program before it begins the file.
    const std::atomic<bool> cancel{ false };
    return sheets::makeAtlas (
        request, [&] (double share) { progress.show (share); }, cancel);
}

void runAtlas (const std::vector<std::string>& words, const Command& command)
{
    const auto arguments = command.read (words);
    const auto target = pageTarget (arguments);
    const auto request = readRequest (arguments);
    const auto atlas = makeWithProgress (request, arguments.has ("progress"));
    const auto impossible =
        std::count_if (atlas.points.begin(), atlas.points.end(), [] (const auto& p) { return ! p.isPossible; });

    if (impossible > 0)
        std::cerr << impossible << " of " << atlas.points.size()
                  << " tunings are crossed out: a head would be slack or beyond its yield strength\n";

    const auto title = request.drum.name.empty() ? std::string ("Atlas of tunings") : request.drum.name + ": atlas of tunings";
    writePage (target, { sheets::atlasWidth,
                         sheets::atlasHeight,
                         { [&] (sheets::Canvas& canvas) { sheets::draw (canvas, atlas, title); } },
                         [&] { return sheets::asJson (atlas); },
                         [&] { return sheets::asCsv (atlas); } });
}
} // namespace

const Command& atlasCommand()
{
    static const Command command{
        "atlas",
        "Maps drum note, ring, snare response and head stress over batter notes and intervals",
        "[DRUM] [options] --output FILE.pdf",
        "The ring is with the wires off. The snare response map shows how fast the resonant head moves under the "
        "wires after a light\n"
        "tap near the edge: the faster, the softer the stroke that wakes the wires.\n",
        { { "Range:",
            { { "lowest-note", "D3", "batter tap note; D3 if not given" },
              { "highest-note", "D4", "D4 if not given" },
              { "notes", "25", "how many, 1 to 500; two to a semitone if not given" },
              { "lowest-interval", "P1", "resonant over batter" },
              { "highest-interval", "P8", "" },
              { "intervals", "13", "how many, 1 to 500" },
              { "threads", "2", "processor threads, 1 to 64; all if not given" } } },
          { "Output:",
            { { "output", "FILE", "format by ending: .pdf, .svg, .png; data: .csv or .json" },
              { "progress", "", "show progress even if standard error is not a terminal" } } } },
        true,
        runAtlas
    };
    return command;
}

} // namespace tool
