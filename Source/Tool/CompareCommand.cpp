#include "Band.h"
#include "Command.h"
#include "Comparison.h"
#include "NoteLadder.h"
#include "PlaceOptions.h"
#include "PlaceText.h"
#include "Playing.h"
#include "Results.h"
#include "Versus.h"

#include "Modal/InputError.h"

#include "Reports/ComparisonJson.h"
#include <algorithm>

namespace tool
{
namespace
{
constexpr std::size_t mostTunings = 12;

void runCompare (const std::vector<std::string>& words, const Command& command)
{
    const VersusArguments versus (words, command.allOptions());
    const auto& arguments = versus.common();
    const auto chosen = versus.hasVersus() ? versus.tunings() : chooseAll (arguments);

    if (chosen.size() < 2 || chosen.size() > mostTunings)
        throw modal::InputError ("tunings to compare", std::to_string (chosen.size()),
                                 "2 to " + std::to_string (mostTunings) +
                                     ": a drum file with several, or options on both sides of \"vs\"");

    if (std::none_of (chosen.begin(), chosen.end(), [] (const auto& tuned) { return tuned.place.has_value(); }))
        arguments.refuse ("tempo", "--place");

    std::vector<reports::NamedPrediction> compared;

    for (const auto& tuned : chosen)
    {
        auto label = versus.hasVersus() && tuned.tuning.name.empty()
                         ? tuned.label() + ", column " + std::to_string (compared.size() + 1)
                         : tuned.label();
        compared.push_back (predictAndPlay (arguments, tuned, label));
        compared.back().inPlace = inPlace (arguments, tuned, compared.back().prediction);
    }

    writeNoteLadder (arguments, compared);
    writeJsonAndText (arguments, reports::comparisonJson (compared), comparisonText (compared));
}
} // namespace

const Command& compareCommand()
{
    static const Command command{
        "compare",
        "Compares tunings side by side: what changes on each head",
        "[DRUM...] [options] [vs [DRUM] [options]]...",
        "Without \"vs\" it compares all tunings of all drums given. With \"vs\", the options before the first \"vs\" hold for every\n"
        "column, and those after it change one column:\n\n"
        "  snarewright compare maple-14x5 --batter-note G#3 --interval P4 vs --interval P5 vs --batter-note A3\n"
        "  snarewright compare maple-14x5 --place studio-dry vs --place church\n\n"
        "Changes are relative to the first column.\n"
        "A snare drum at playing distance harms hearing within minutes: wear ear protection when you compare by ear.\n",
        { { "Output:", { playedOption, tempoOption, jsonOption, pictureOption } }, placeOptions() },
        true,
        runCompare
    };
    return command;
}

} // namespace tool
