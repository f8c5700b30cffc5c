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

    // Output options may stand anywhere, as they concern all columns.
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
        "Two or more tunings side by side, and what changes on which head",
        "[DRUM...] [options] [vs [DRUM] [options]]...",
        "Without \"vs\", all tunings of all drums given stand side by side. With it, what stands before the first \"vs\" holds "
        "for every\n"
        "column, and each column changes it:\n\n"
        "  snarewright compare maple-14x5 --batter-note G#3 --interval P4 vs --interval P5 vs --batter-note F#3\n\n"
        "Changes count from the first column.\n",
        { { "Output:",
            { playedOption,
              { "json", "FILE", "as JSON to a file; without one, or with -, to standard output", true },
              { "picture", "FILE.svg", "the columns against note names, as a picture" } } } },
        true,
        run
    };
    return command;
}

} // namespace tool
