#include "Versus.h"

#include "Modal/InputError.h"

namespace tool
{
namespace
{
std::vector<Arguments> splitAtVersus (const std::vector<std::string>& words, const std::vector<OptionGroup>& options)
{
    std::vector<std::vector<std::string>> parts (1);

    for (const auto& word : words)
    {
        if (word == "vs")
            parts.emplace_back();
        else
            parts.back().push_back (word);
    }

    std::vector<Arguments> read;

    for (const auto& part : parts)
    {
        if (part.empty() && ! read.empty())
            throw modal::InputError::fault ("\"vs\"", "has nothing after it",
                                            "a drum or options, to compare with what comes before");

        read.emplace_back (part, options);
    }

    return read;
}
} // namespace

VersusArguments::VersusArguments (const std::vector<std::string>& words, const std::vector<OptionGroup>& options)
    : parts (splitAtVersus (words, options)), all (parts.front())
{
    for (std::size_t i = 1; i < parts.size(); ++i)
        all = all.overriddenBy (parts[i]);

    all.requireCompanions (options);
}

std::vector<TunedDrum> VersusArguments::tunings() const
{
    std::vector<TunedDrum> chosen{ chooseOne (parts.front()) };

    for (std::size_t i = 1; i < parts.size(); ++i)
        chosen.push_back (chooseOne (parts.front().overriddenBy (parts[i])));

    return chosen;
}

} // namespace tool
