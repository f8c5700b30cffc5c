#include "Lines.h"

#include "Modal/pitch/Note.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <set>

namespace fitting
{
namespace
{

/** A partial of one tap. */
struct Heard
{
    const Partial* partial = nullptr;
    std::size_t tap = 0;
    double loudness = 0.0; ///< over the tap's loudest
};

/** The mean of the poles of neighbouring partials, weighted by loudness. */
Line together (const std::vector<Heard>& parts)
{
    Line line;
    std::set<std::size_t> taps;
    double sum = 0.0, variance = 0.0, decayVariance = 0.0;

    for (const auto& [partial, tap, loudness] : parts)
    {
        sum += loudness;
        line.frequency += loudness * partial->frequency;
        line.decay += loudness * partial->decay;
        variance += std::pow (loudness * partial->frequencyError, 2);
        decayVariance += std::pow (loudness * partial->decayError, 2);
        line.loudness = std::max (line.loudness, loudness);
        line.rise = std::max (line.rise, partial->rise);
        taps.insert (tap);
    }

    line.frequency /= sum;
    line.decay /= sum;
    line.error = std::sqrt (variance) / sum;
    line.decayError = std::sqrt (decayVariance) / sum;
    line.strikes = static_cast<int> (taps.size());
    return line;
}

/** Partials that are not faint beside their tap's loudest, ascending in frequency. */
std::vector<Heard> heardIn (const std::vector<std::vector<Partial>>& taps)
{
    constexpr double faintest = 0.01;
    std::vector<Heard> all;

    for (std::size_t tap = 0; tap < taps.size(); ++tap)
    {
        double loudest = 1.0e-300;

        for (const auto& partial : taps[tap])
            loudest = std::max (loudest, partial.level());

        for (const auto& partial : taps[tap])
            if (const double loudness = partial.level() / loudest; loudness > faintest)
                all.push_back ({ &partial, tap, loudness });
    }

    std::sort (all.begin(), all.end(),
               [] (const Heard& a, const Heard& b) { return a.partial->frequency < b.partial->frequency; });
    return all;
}

} // namespace

std::vector<Line> commonLines (const std::vector<std::vector<Partial>>& taps)
{
    constexpr double near = 6.0, far = 15.0; // cents: from one to the next of a line, and from its first to its last
    std::vector<Line> lines;
    std::vector<Heard> one;
    const auto finish = [&]
    {
        if (! one.empty())
            if (const auto line = together (one); 2 * static_cast<std::size_t> (line.strikes) >= taps.size())
                lines.push_back (line);

        one.clear();
    };

    for (const auto& heard : heardIn (taps))
    {
        const double at = heard.partial->frequency;

        if (! one.empty() && (modal::centsBetween (one.back().partial->frequency, at) > near ||
                              modal::centsBetween (one.front().partial->frequency, at) > far))
            finish();

        one.push_back (heard);
    }

    finish();
    return lines;
}

double Line::weight() const noexcept
{
    constexpr double faintCounts = 0.3; // exponent
    constexpr double blurred = 0.6;     // Hz
    const double once = strikes > 1 ? 1.0 : 0.5;
    // What decays as fast as a room and is not loud is probably the room.
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

bool areHarmonics (const std::vector<Line>& lines)
{
    constexpr double near = 15.0;       // cents
    constexpr double nearlyAll = 0.85;  // of the weight
    constexpr int mostHarmonics = 10, fewestHarmonics = 5;

    if (lines.empty())
        return false;

    const double pitch = lowestLoud (lines);
    double harmonic = 0.0, all = 0.0;
    std::set<int> heard;

    for (const auto& line : lines)
    {
        const double number = std::round (line.frequency / pitch);

        if (number > mostHarmonics)
            continue;

        all += line.weight();

        if (number > 0.5 && std::abs (modal::centsBetween (number * pitch, line.frequency)) < near)
        {
            harmonic += line.weight();
            heard.insert (static_cast<int> (number));
        }
    }

    const bool hasFirst = heard.size() >= fewestHarmonics && *std::next (heard.begin(), fewestHarmonics - 1) == fewestHarmonics;
    return hasFirst && harmonic > nearlyAll * all;
}

double lowestLoud (const std::vector<Line>& lines)
{
    constexpr double loud = 0.2;
    const auto first = std::find_if (lines.begin(), lines.end(), [] (const Line& line) { return line.loudness > loud; });
    return first == lines.end() ? lines.front().frequency : first->frequency;
}

} // namespace fitting
