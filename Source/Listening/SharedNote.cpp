#include "SharedNote.h"

#include <algorithm>
#include <array>

namespace listening
{
namespace
{

using fitting::Line;

/** Whether `upper` lies and rings above `lower` as (2,1) does above (1,1), with room for noise, a room's response and a (1,1) that uneven
    lugs split or a hard tap makes glide: it beats, and seems to fade sooner than it does. */
bool isPattern (const Line& lower, const Line& upper)
{
    constexpr double closest = 1.38, farthest = 1.49;      // frequency
    constexpr double shortestRing = 0.6, longestRing = 1.6; // ring
    const double ratio = upper.frequency / lower.frequency, ring = lower.decay / upper.decay;
    return ratio > closest && ratio < farthest && ring > shortestRing && ring < longestRing;
}

} // namespace

std::string_view nameOf (SharedNote::Kind kind)
{
    constexpr std::array<std::string_view, 5> names{ "none", "tap_note", "lowest", "either", "unknown" }; // in the order of the kinds
    return names[static_cast<std::size_t> (kind)];
}

SharedNote sharedNote (const std::vector<Line>& lines)
{
    // Of the lowest loud note's ring over that of the note with the pattern: up to here (0,1) of the same head, from there on the
    // drum note of two heads that ring.
    constexpr double fades = 0.60, ringsOn = 0.65;

    if (lines.empty())
        return {};

    const double lowest = fitting::lowestLoud (lines);
    const auto& lowestLine = *std::find_if (lines.begin(), lines.end(), [&] (const Line& line) { return line.frequency == lowest; });
    const auto hasPattern = [&] (const Line& line)
    { return std::any_of (lines.begin(), lines.end(), [&] (const Line& upper) { return isPattern (line, upper); }); };
    const auto rocking = std::find_if (lines.begin(), lines.end(), hasPattern);

    if (rocking == lines.end())
        return { SharedNote::Kind::unknown, lowest };

    if (rocking->frequency <= lowest)
        return { SharedNote::Kind::tapNote, rocking->frequency };

    const double ring = rocking->decay / lowestLine.decay;

    if (ring < fades)
        return { SharedNote::Kind::tapNote, rocking->frequency };

    if (ring > ringsOn)
        return { SharedNote::Kind::lowest, lowest };

    return { SharedNote::Kind::either, rocking->frequency, lowest };
}

} // namespace listening
