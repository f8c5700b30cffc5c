#include "Arguments.h"

#include "Files/NearestWord.h"
#include "Modal/InputError.h"

#include <algorithm>
#include <sstream>

namespace tool
{
namespace
{
const Option& findOption (const std::string& name, const std::vector<OptionGroup>& groups)
{
    std::vector<std::string> known;

    for (const auto& group : groups)
    {
        for (const auto& option : group.options)
        {
            if (name == option.name)
                return option;

            known.emplace_back (option.name);
        }
    }

    const auto nearest = files::nearestWord (name, known);
    throw modal::InputError::fault ("--" + name, "is an unknown option",
                                    nearest.empty() ? "one that --help lists" : "one that --help lists, perhaps --" + nearest);
}

bool isOption (const std::string& word)
{
    return word.size() > 2 && word.starts_with ("--");
}
} // namespace

Arguments::Arguments (const std::vector<std::string>& words, const std::vector<OptionGroup>& groups)
{
    for (std::size_t i = 0; i < words.size(); ++i)
    {
        if (! isOption (words[i]))
        {
            if (words[i].size() > 1 && words[i][0] == '-')
                throw modal::InputError::fault (words[i], "is an unknown option", "options with two dashes, see --help");

            free.push_back (words[i]);
            continue;
        }

        const auto equals = words[i].find ('=');
        const auto& option = findOption (words[i].substr (2, equals == std::string::npos ? equals : equals - 2), groups);
        const auto name = "--" + std::string (option.name);
        const auto isSwitch = *option.value == '\0';
        std::string value;

        if (equals != std::string::npos)
        {
            if (isSwitch)
                throw modal::InputError (name, '"' + words[i].substr (equals + 1) + '"', "no value, it is a switch");

            value = words[i].substr (equals + 1);
        }
        else if (! isSwitch)
        {
            // A value may begin with one dash ("-m2", "-" for standard output) but not with two.
            if (i + 1 < words.size() && ! isOption (words[i + 1]))
                value = words[++i];
            else if (! option.valueIsOptional)
                throw modal::InputError::fault (name, "has no value", name + " " + option.value);
        }

        if (! values.emplace (option.name, value).second)
            throw modal::InputError::fault (name, "is given twice, the second time with \"" + value + '"', "the option once");
    }
}

void Arguments::requireCompanions (const std::vector<OptionGroup>& groups) const
{
    for (const auto& group : groups)
        for (const auto& option : group.options)
        {
            const auto& others = option.goesWith;

            if (others.empty() || std::any_of (others.begin(), others.end(), [&] (const auto* other) { return has (other); }))
                continue;

            std::vector<std::string> names;

            for (const auto* other : others)
                names.push_back (std::string ("--") + other);

            refuse (option.name, files::listed (names));
        }
}

void Arguments::refuse (const std::string& name, const std::string& needed) const
{
    if (has (name))
        throw modal::InputError::fault ("--" + name, "does nothing here", needed + ", or --" + name + " left out");
}

std::optional<std::string> Arguments::value (const std::string& name) const
{
    const auto found = values.find (name);
    return found == values.end() ? std::nullopt : std::optional (found->second);
}

Arguments Arguments::overriddenBy (const Arguments& over) const
{
    auto result = over;
    result.values.insert (values.begin(), values.end());

    if (result.free.empty())
        result.free = free;

    return result;
}

void Arguments::requireAtMost (std::size_t freeWordsAllowed, const char* whatTheyAre) const
{
    if (free.size() > freeWordsAllowed)
        throw modal::InputError (
            "argument", '"' + free[freeWordsAllowed] + '"',
            (freeWordsAllowed == 0 ? "options only" : "at most " + std::to_string (freeWordsAllowed) + " " + whatTheyAre) +
                "; put a value with spaces in quotes");
}

std::string helpFor (const std::vector<OptionGroup>& groups)
{
    constexpr std::size_t helpColumn = 34;
    std::string text;

    for (const auto& group : groups)
    {
        text += "\n" + std::string (group.title) + "\n";

        for (const auto& option : group.options)
        {
            auto line = "  --" + std::string (option.name);

            if (*option.value != '\0')
                line += option.valueIsOptional ? " [" + std::string (option.value) + "]" : " " + std::string (option.value);

            if (line.size() + 1 >= helpColumn)
                line += "\n" + std::string (helpColumn, ' ');
            else
                line.append (helpColumn - line.size(), ' ');

            // An option may have no text of its own, but it has its line.
            std::istringstream help (std::string (option.help) + "\n");

            for (std::string part; std::getline (help, part); line = std::string (helpColumn, ' '))
                text += line + part + "\n";
        }
    }

    return text;
}

} // namespace tool
