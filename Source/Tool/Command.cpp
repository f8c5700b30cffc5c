#include "Command.h"

#include "TunedDrum.h"

namespace tool
{

std::vector<OptionGroup> Command::allOptions() const
{
    auto groups = options;

    if (takesDrum)
        groups.insert (groups.end(), tunedDrumOptions().begin(), tunedDrumOptions().end());

    return groups;
}

Arguments Command::read (const std::vector<std::string>& words) const
{
    const auto known = allOptions();
    Arguments arguments (words, known);
    arguments.requireCompanions (known);
    return arguments;
}

std::string Command::help() const
{
    return std::string (summary) + "\n\nUsage: snarewright " + name + " " + usage + "\n" + helpFor (allOptions()) + "\n" + notes;
}

} // namespace tool
