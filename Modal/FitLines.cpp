#include "FitLines.h"

#include <algorithm>
#include <cmath>

namespace modal
{
namespace
{

constexpr double together = 3.0;  // standard deviations
constexpr double leastGap = 2.5;  // Hz: nearer ones are a pair that uneven lugs split, or one mode heard twice
constexpr double faintest = 0.01; // of the strongest: as likely the room's answer as a mode
constexpr double loud = 0.2;
constexpr double telling = 4.5; // times the lowest loud line's frequency
constexpr double surest = 0.15; // Hz and 1/s: nothing is known better

/** A running mean of partials, each by the inverse of its variance. */
struct Cluster
{
    Line line;
    double weight = 0.0, decayWeight = 0.0;

    void add (const Partial& partial, double loudness)
    {
        const auto join = [] (double& mean, double& sum, double value, double error)
        {
            const double more = 1.0 / (error * error + surest * surest);
            mean = (mean * sum + value * more) / (sum + more);
            sum += more;
        };
        join (line.frequency, weight, partial.frequency, partial.frequencyError);
        join (line.decay, decayWeight, partial.decay, partial.decayError);
        line.error = 1.0 / std::sqrt (weight);
        line.decayError = 1.0 / std::sqrt (decayWeight);
        line.loudness = std::max (line.loudness, loudness);
        ++line.strikes;
    }
};

} // namespace

double Line::weight() const noexcept
{
    constexpr double faintCounts = 0.3; // exponent
    constexpr double blurred = 0.6;     // Hz
    const double once = strikes > 1 ? 1.0 : 0.5;
    return once * std::pow (loudness, faintCounts) / (1.0 + std::pow (error / blurred, 2));
}

std::vector<Line> linesOf (const std::vector<std::vector<Partial>>& strikes)
{
    struct Heard
    {
        Partial partial;
        double loudness;
    };

    std::vector<Heard> all;

    for (const auto& strike : strikes)
    {
        double strongest = 0.0;

        for (const auto& partial : strike)
            strongest = std::max (strongest, partial.level());

        for (const auto& partial : strike)
            if (const double level = partial.level(); level > faintest * strongest)
                all.push_back ({ partial, level / strongest });
    }

    std::sort (all.begin(), all.end(), [] (const Heard& a, const Heard& b) { return a.partial.frequency < b.partial.frequency; });
    std::vector<Cluster> clusters;

    for (const auto& heard : all)
    {
        const bool joins = ! clusters.empty() && heard.partial.frequency - clusters.back().line.frequency <
                                                     std::max (leastGap, together * std::hypot (heard.partial.frequencyError,
                                                                                                clusters.back().line.error));

        if (! joins)
            clusters.emplace_back();

        clusters.back().add (heard.partial, heard.loudness);
    }

    std::vector<Line> lines;

    for (const auto& cluster : clusters)
        lines.push_back (cluster.line);

    if (! lines.empty())
        std::erase_if (lines, [highest = telling * lowestLoud (lines)] (const Line& line) { return line.frequency >= highest; });

    return lines;
}

double lowestLoud (const std::vector<Line>& lines)
{
    return std::find_if (lines.begin(), lines.end(), [] (const Line& line) { return line.loudness > loud; })->frequency;
}

} // namespace modal
