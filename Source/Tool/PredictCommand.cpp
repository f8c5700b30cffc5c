#include "Band.h"
#include "Command.h"
#include "NoteLadder.h"
#include "OutputFile.h"
#include "PlayedText.h"
#include "Playing.h"
#include "PredictionJson.h"
#include "PredictionText.h"
#include "Results.h"

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

    writeJsonAndText (arguments, predictionJson ({ label, prediction, played }),
                      predictionText (prediction, label) + (played ? "\n" + playedText (*played) : ""));
}
} // namespace

const Command& predictCommand()
{
    static const Command command{
        "predict",
        "Predicts a tuning: drum note, tension, head stress, force per rod, ring, modes",
        "[DRUM] [options]",
        "The figures hold for undamaged heads, tuned evenly unless --batter-lugs or --resonant-lugs says otherwise. The force per "
        "rod leaves out friction.\n"
        "The tap note of a head is heard 25 mm from the edge beside a lug, with the other head held still. The drum note is the "
        "lowest\n"
        "mode of the finished drum in which the heads move; the mode of the air in the vent lies below it.\n"
        "Keep to the limits of the makers of heads and drum: an over-tensioned head splits, an over-tightened rod strips its "
        "thread,\n"
        "and both leave sharp edges.\n",
        { { "Output:",
            { playedOption,
              { "json", "FILE", "JSON to a file, besides the text; without a file, or with -, JSON to standard output instead",
                true },
              { "picture", "FILE.svg", "a picture of tap notes and modes against note names" } } } },
        true,
        run
    };
    return command;
}

} // namespace tool
