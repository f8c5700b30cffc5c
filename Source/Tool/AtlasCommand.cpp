#include "Command.h"
#include "DrumOptions.h"
#include "OptionText.h"
#include "Progress.h"
#include "Results.h"

#include "Files/TuningRequest.h"
#include "Sheets/AtlasMap.h"

namespace tool
{
namespace
{
sheets::AtlasRequest readRequest (const Arguments& arguments)
{
    sheets::AtlasRequest request;
    request.drum = chooseDrum (arguments);

    const auto note = [&] (const char* option, double& hertz)
    {
        if (const auto text = arguments.value (option))
            hertz = files::readNote (*text, {}, std::string ("--") + option);
    };
    const auto interval = [&] (const char* option, double& semitones)
    {
        if (const auto text = arguments.value (option))
            semitones = modal::Interval::parse (*text, std::string ("--") + option).semitones;
    };
    const auto count = [&] (const char* option, int& number)
    {
        if (const auto text = arguments.value (option))
            number = readCount (*text, 1, 500, std::string ("--") + option);
    };

    note ("lowest-note", request.lowestNote);
    note ("highest-note", request.highestNote);
    count ("notes", request.notes);
    interval ("lowest-interval", request.lowestInterval);
    interval ("highest-interval", request.highestInterval);
    count ("intervals", request.intervals);

    if (const auto threads = arguments.value ("threads"))
        request.threads = static_cast<unsigned> (readCount (*threads, 1, 64, "--threads"));

    return request;
}

void run (const std::vector<std::string>& words, const Command& command)
{
    const Arguments arguments (words, command.allOptions());
    const auto target = pageTarget (arguments);
    const auto request = readRequest (arguments);
    Progress progress (false);

    // An interrupt ends the program before the file is begun.
    const std::atomic<bool> cancel{ false };
    const auto atlas = sheets::makeAtlas (
        request, [&] (double share) { progress.show (share); }, cancel);
    const auto title = request.drum.name.empty() ? std::string ("Atlas of tunings") : request.drum.name + ": atlas of tunings";
    writePage (target,
               { sheets::atlasWidth, sheets::atlasHeight, [&] (sheets::Canvas& canvas) { sheets::draw (canvas, atlas, title); },
                 [&] { return sheets::asJson (atlas); }, [&] { return sheets::asCsv (atlas); } });
}
} // namespace

const Command& atlasCommand()
{
    static const Command command{ "atlas",
                                  "All intervals over a range of batter notes: maps of drum note, sustain, wires, stress",
                                  "[DRUM] [options] --output FILE.pdf",
                                  "Wires are off for sustain. WIRE RESPONSE is how fast the resonant head moves under the wires "
                                  "after a light tap near the edge:\n"
                                  "the faster, the lighter the stroke that sets them off.\n",
                                  { { "Range:",
                                      { { "lowest-note", "D3", "batter tap note, 150 Hz if not given" },
                                        { "highest-note", "D4", "300 Hz if not given" },
                                        { "notes", "25", "how many, 1 to 500" },
                                        { "lowest-interval", "P1", "resonant over batter" },
                                        { "highest-interval", "P8", "" },
                                        { "intervals", "13", "how many, 1 to 500" },
                                        { "threads", "2", "as many as the computer runs at once if not given" } } },
                                    { "Output:",
                                      { { "output", "FILE", "by its ending: .pdf, .svg, .png, and as data .csv or .json" } } } },
                                  true,
                                  run };
    return command;
}

} // namespace tool
