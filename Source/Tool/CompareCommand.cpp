#include "Band.h"
#include "Command.h"
#include "Comparison.h"
#include "NoteLadder.h"
#include "OutputFile.h"
#include "Playing.h"

#include "Modal/InputError.h"

namespace tool
{
namespace
{
constexpr double usualHighestFrequency = 2000.0; // Hz
constexpr std::size_t mostTunings = 12;

using Words = std::vector<std::string>;

/** The words between each "vs". */
std::vector<Words> splitAtVersus (const Words& words)
{
    std::vector<Words> parts (1);

    for (const auto& word : words)
    {
        if (word == "vs")
            parts.emplace_back();
        else
            parts.back().push_back (word);
    }

    return parts;
}

std::vector<TunedDrum> chooseTunings (const std::vector<Words>& parts, const std::vector<OptionGroup>& options)
{
    const Arguments first (parts.front(), options);

    if (parts.size() == 1)
        return chooseAll (first);

    std::vector<TunedDrum> chosen{ chooseOne (first) };

    for (std::size_t i = 1; i < parts.size(); ++i)
        chosen.push_back (chooseOne (first.overriddenBy (Arguments (parts[i], options))));

    return chosen;
}

void run (const Words& words, const Command& command)
{
    const auto parts = splitAtVersus (words);
    const auto options = command.allOptions();

    // Output options hold for all columns, so they may come anywhere.
    Arguments arguments (parts.front(), options);
    for (std::size_t i = 1; i < parts.size(); ++i)
        arguments = arguments.overriddenBy (Arguments (parts[i], options));

    const auto chosen = chooseTunings (parts, options);

    if (chosen.size() < 2 || chosen.size() > mostTunings)
        throw modal::InputError ("tunings to compare", std::to_string (chosen.size()),
                                 "2 to " + std::to_string (mostTunings) +
                                     ": a drum file with several, or options on both sides of \"vs\"");

    std::vector<NamedPrediction> compared;

    for (const auto& tuned : chosen)
    {
        auto label = parts.size() > 1 && tuned.tuning.name.empty()
                         ? tuned.label() + ", column " + std::to_string (compared.size() + 1)
                         : tuned.label();
        compared.push_back ({ label, predictAsked (arguments, tuned, usualHighestFrequency), playedIfAsked (arguments, tuned) });
    }

    if (const auto picture = outputTarget (arguments, "picture", { ".svg" }))
        writeText (*picture, noteLadder (compared));

    const auto json = outputTarget (arguments, "json");

    if (json)
        writeText (*json, files::written (comparisonJson (compared)));

    if (! json || *json != "-")
        writeText ("-", comparisonText (compared));
}
} // namespace

const Command& compareCommand()
{
    static const Command command{
        "compare",
        "Compares tunings side by side: what changes on each head",
        "[DRUM...] [options] [vs [DRUM] [options]]...",
        "Without \"vs\" it compares all tunings of all drums given. With \"vs\", the options before the first \"vs\" hold for "
        "every column, and those\n"
        "after it change one column:\n\n"
        "  snarewright compare maple-14x5 --batter-note G#3 --interval P4 vs --interval P5 vs --batter-note A3\n\n"
        "Changes are relative to the first column.\n",
        { { "Output:",
            { playedOption,
              { "json", "FILE", "JSON to a file, besides the text; without a file, or with -, JSON to standard output instead", true },
              { "picture", "FILE.svg", "a picture of tap notes and modes against note names" } } } },
        true,
        run
    };
    return command;
}

} // namespace tool
