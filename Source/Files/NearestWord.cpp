#include "NearestWord.h"

#include <algorithm>
#include <numeric>

namespace files
{
namespace
{
/** Levenshtein distance: insertions, deletions and substitutions. */
std::size_t editsBetween (std::string_view a, std::string_view b)
{
    std::vector<std::size_t> row (b.size() + 1);
    std::iota (row.begin(), row.end(), std::size_t{ 0 });

    for (std::size_t i = 1; i <= a.size(); ++i)
    {
        auto diagonal = row[0];
        row[0] = i;

        for (std::size_t j = 1; j <= b.size(); ++j)
        {
            const auto substituted = diagonal + (a[i - 1] == b[j - 1] ? 0 : 1);
            diagonal = row[j];
            row[j] = std::min ({ substituted, row[j] + 1, row[j - 1] + 1 });
        }
    }

    return row.back();
}

std::string lowered (std::string_view text)
{
    std::string result (text);

    for (char& c : result)
        if (c >= 'A' && c <= 'Z')
            c = static_cast<char> (c - 'A' + 'a');

    return result;
}
} // namespace

std::string nearestWord (std::string_view word, const std::vector<std::string>& known)
{
    // A word of up to this length is worth comparing; what is longer is no misspelling of a key.
    constexpr std::size_t longest = 64;

    if (word.size() > longest)
        return {};

    const auto wanted = lowered (word);

    // A key without its unit is no misspelling: the first unit will do.
    for (const auto& candidate : known)
        if (const auto other = lowered (candidate);
            other.starts_with (wanted + "_") || (wanted.size() > 2 && other.starts_with (wanted)))
            return candidate;

    std::string nearest;
    auto fewest = std::max<std::size_t> (1, word.size() / 2);

    for (const auto& candidate : known)
    {
        if (const auto edits = editsBetween (wanted, lowered (candidate)); edits < fewest || (edits == fewest && nearest.empty()))
        {
            fewest = edits;
            nearest = candidate;
        }
    }

    return nearest;
}

std::string listed (const std::vector<std::string>& words)
{
    std::string text;

    for (std::size_t i = 0; i < words.size(); ++i)
    {
        if (i > 0)
            text += i + 1 == words.size() ? " or " : ", ";

        text += words[i];
    }

    return text;
}

std::string listedFor (std::string_view given, const std::vector<std::string>& words)
{
    const auto nearest = nearestWord (given, words);
    return listed (words) + (nearest.empty() ? "" : "; perhaps " + nearest);
}

} // namespace files
