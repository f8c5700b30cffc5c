#include "Find.h"

#include <cmath>

namespace finding
{

namespace
{

std::string listed (const std::vector<std::string>& parts)
{
    std::string text;

    for (std::size_t i = 0; i < parts.size(); ++i)
        text += (i == 0 ? "" : i + 1 == parts.size() ? " and " : ", ") + parts[i];

    return text;
}

/** "0.41 s, 0.11 s too long". */
std::string nearestText (const Wish& wish, double nearest, modal::ConcertPitch pitch)
{
    return textOf (wish.figure, nearest, pitch) + ", " + missText (wish.figure, nearest, nearestAllowed (wish, nearest));
}

std::string aloneText (const Wish& wish, double nearest, modal::ConcertPitch pitch)
{
    if (std::isnan (nearest))
        return "Not known on this drum: " + wish.text +
               (wish.figure == Figure::softestStroke ? ", because its wires are off." : ".");

    return "No tuning of this drum has " + wish.text + ": the nearest is " + nearestText (wish, nearest, pitch) + ".";
}

std::string togetherText (const Conflict& conflict, const std::vector<Wish>& wishes, modal::ConcertPitch pitch)
{
    std::vector<std::string> names, ways;

    for (const auto w : conflict.wishes)
        names.push_back (wishes[w].text);

    for (std::size_t i = 0; i < names.size(); ++i)
    {
        const auto& wish = wishes[conflict.wishes[i]];

        if (! std::isnan (conflict.nearest[i]))
            ways.push_back ((names.size() == 2 ? "with " + names[1 - i] : std::string ("with the others")) + ", " +
                            infoOf (wish.figure).name + " is " + nearestText (wish, conflict.nearest[i], pitch));
    }

    std::string text = "No tuning of this drum has " + listed (names) + " together";

    for (std::size_t i = 0; i < ways.size(); ++i)
        text += (i == 0 ? ": " : "; ") + ways[i];

    return text + ".";
}

} // namespace

std::vector<std::string> explain (const FindResult& result, const std::vector<Wish>& wishes, modal::ConcertPitch pitch)
{
    std::vector<std::string> sentences;

    for (const auto& conflict : result.conflicts)
        sentences.push_back (conflict.wishes.size() == 1
                                 ? aloneText (wishes[conflict.wishes.front()], conflict.nearest.front(), pitch)
                                 : togetherText (conflict, wishes, pitch));

    return sentences;
}

} // namespace finding
