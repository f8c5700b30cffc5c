#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace tool
{

/** One option of a command: `--name value`, or a switch if `value` is empty. */
struct Option
{
    const char* name;  ///< without the dashes
    const char* value; ///< placeholder of the value in the help, "" for a switch
    std::string help;  ///< one line or more
    bool valueIsOptional = false;
    std::vector<const char*> goesWith = {}; ///< options of which one must be given too, or this one does nothing
};

/** Options that the help lists under one heading. */
struct OptionGroup
{
    const char* title;
    std::vector<Option> options;
};

/** A parsed command line. */
class Arguments
{
public:
    /** Takes `--name value`, `--name=value` and free words. Throws modal::InputError for an option that no group has, that lacks
       its value, or that is given twice. */
    Arguments (const std::vector<std::string>& words, const std::vector<OptionGroup>&);

    bool has (const std::string& name) const { return values.contains (name); }
    std::optional<std::string> value (const std::string& name) const;
    const std::vector<std::string>& freeWords() const noexcept { return free; }

    /** These arguments with those of `over` in their place; its free words, if any, replace the free words. */
    Arguments overriddenBy (const Arguments& over) const;

    /** Throws modal::InputError if an option is given without one that it goes with. */
    void requireCompanions (const std::vector<OptionGroup>&) const;

    /** Throws modal::InputError if the option is given where it does nothing without what is `needed`. */
    void refuse (const std::string& name, const std::string& needed) const;

    /** Throws modal::InputError if there are more free words than that. */
    void requireAtMost (std::size_t freeWordsAllowed, const char* whatTheyAre) const;

private:
    std::map<std::string, std::string> values;
    std::vector<std::string> free;
};

/** The options as text, two columns, group by group. */
std::string helpFor (const std::vector<OptionGroup>&);

} // namespace tool
