#include "Band.h"
#include "Command.h"
#include "NoteLadder.h"
#include "OutputFile.h"
#include "PlayedText.h"
#include "Playing.h"
#include "PredictionJson.h"
#include "PredictionText.h"

namespace tool
{
namespace
{
constexpr double usualHighestFrequency = 2000.0; // Hz

void run (const std::vector<std::string>& words, const Command& command)
{
    const Arguments arguments (words, command.allOptions());
    const auto tuned = chooseOne (arguments);
    const auto prediction = predictAsked (arguments, tuned, usualHighestFrequency);
    const auto label = tuned.label();
    const auto played = playedIfAsked (arguments, tuned);

    if (const auto picture = outputTarget (arguments, "picture", { ".svg" }))
        writeText (*picture, noteLadder ({ { label, prediction, played } }));

    const auto json = outputTarget (arguments, "json");

    if (json)
        writeText (*json, files::written (predictionJson ({ label, prediction, played })));

    // Standard output carries either the JSON or the table, never both.
    if (! json || *json != "-")
        writeText ("-", predictionText (prediction, label) + (played ? "\n" + playedText (*played) : ""));
}
} // namespace

const Command& predictCommand()
{
    static const Command command{
        "predict",
        "What a tuning comes to: drum note, tensions, stress, sustain, modes",
        "[DRUM] [options]",
        "Notes and frequencies say what an ideally even tuning of an undamaged head comes to. Tensions "
        "are the film's; a rod also has to\n"
        "overcome friction at the bearing edge. The drum note is the lowest mode in which the heads sound; "
        "the air in a vent moves below it.\n"
        "Keep to the limits that the makers of heads and drums give: a head that is drawn too far "
        "splits, a rod that is drawn too far\n"
        "strips its thread, and both have sharp edges afterwards.\n",
        { { "Output:",
            { playedOption,
              { "json", "FILE", "as JSON to a file, beside the report; without one, or with -, to standard output instead of it",
                true },
              { "picture", "FILE.svg", "heads and drum against note names, as a picture" } } } },
        true,
        run
    };
    return command;
}

} // namespace tool
