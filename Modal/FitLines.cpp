#include "FitLines.h"

#include <algorithm>
#include <cmath>

namespace modal
{

double Line::weight() const noexcept
{
    constexpr double faintCounts = 0.3; // exponent
    constexpr double blurred = 0.6;     // Hz
    const double once = strikes > 1 ? 1.0 : 0.5;
    // A room answers with whatever is struck and fades at its own rate: what fades like that and is not loud is as likely the
    // room.
    constexpr double roomDecay = 25.0; // 1/s
    const double roomLike = 4.0 * (1.0 - loudness) * std::pow (decay / roomDecay, 4);
    return once / (1.0 + roomLike) * std::pow (loudness, faintCounts) / (1.0 + std::pow (error / blurred, 2));
}

std::vector<Line> tellingLines (std::vector<Line> lines)
{
    constexpr double telling = 4.5; // times the lowest loud line's frequency

    if (! lines.empty())
        std::erase_if (lines, [highest = telling * lowestLoud (lines)] (const Line& line) { return line.frequency >= highest; });

    return lines;
}

double lowestLoud (const std::vector<Line>& lines)
{
    constexpr double loud = 0.2;
    const auto first = std::find_if (lines.begin(), lines.end(), [] (const Line& line) { return line.loudness > loud; });
    return first == lines.end() ? lines.front().frequency : first->frequency;
}

} // namespace modal
