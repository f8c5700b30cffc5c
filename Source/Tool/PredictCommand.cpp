#include "Command.h"
#include "NoteLadder.h"
#include "PlaceOptions.h"
#include "PlaceText.h"
#include "PlayedText.h"
#include "Playing.h"
#include "PredictionText.h"
#include "Results.h"

#include "Reports/PredictionJson.h"

namespace tool
{
namespace
{
void runPredict (const std::vector<std::string>& words, const Command& command)
{
    const auto arguments = command.read (words);
    const auto tuned = chooseOne (arguments);

    if (! tuned.place)
        arguments.refuse ("tempo", "--place");

    auto named = predictAndPlay (arguments, tuned, tuned.label());
    named.inPlace = inPlace (arguments, tuned, named.prediction);

    writeNoteLadder (arguments, { named });
    writeJsonAndText (arguments, reports::predictionJson (named),
                      predictionText (named) + (named.played ? "\n" + playedText (*named.played) : "") +
                          (named.inPlace ? "\n" + placeText (*named.inPlace) : ""));
}
} // namespace

const Command& predictCommand()
{
    static const Command command{
        "predict",
        "Predicts a tuning: drum note, tension, head stress, force per rod, ring, modes",
        "[DRUM] [options]",
        "The figures hold for undamaged heads, tuned evenly unless --batter-lugs or --resonant-lugs says otherwise. The force per\n"
        "rod leaves out friction. How long a mode rings is known within a factor of two.\n"
        "The tap note of a head is heard 25 mm from the edge beside a lug, with the other head held still. The drum note is the\n"
        "lowest mode of the finished drum in which the heads move; the mode of the air in the vent lies below it.\n"
        "Keep to the limits of the makers of heads and drum: an over-tensioned head splits, an over-tightened rod strips its\n"
        "thread, and both leave sharp edges.\n",
        { { "Output:", { playedOption, tempoOption, jsonOption, pictureOption } }, placeOptions() },
        true,
        runPredict
    };
    return command;
}

} // namespace tool
