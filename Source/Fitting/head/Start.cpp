#include "Start.h"

#include "Modal/Tuning.h"
#include "Modal/Units.h"
#include "Modal/heads/OneHead.h"
#include "Modal/modes/OrderModes.h"
#include "Modal/pitch/Note.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace fitting
{
namespace
{

constexpr int families = 4;        // (1,1) to (4,1)
constexpr int firstFunctions = 8;  // of each, enough for a first guess
constexpr double tolerance = 35.0; // cents: unevenness, tolerance of mass
constexpr int steps = 100;
constexpr std::size_t mostStarts = 5; // starts that are worth a fit

using Family = std::array<double, families>; // Hz

std::vector<modal::OrderProblem> problemsOf (const modal::DrumSpec& single)
{
    const double cutoff = 8.0 * single.air.soundSpeed / (modal::units::twoPi * single.radius());
    std::vector<modal::OrderProblem> problems;

    for (int m = 1; m <= families; ++m)
        problems.push_back (modal::makeOrderProblem (m, firstFunctions, single, cutoff));

    return problems;
}

Family familyAt (const std::vector<modal::OrderProblem>& problems, const modal::DrumSpec& single, double tension)
{
    Family family{};

    for (const auto& problem : problems)
        for (const auto& mode : modal::modesOfOrder (problem, single, { tension, 0.0 }, 1.0e9, 1))
            if (! mode.mode.isAirMode)
                family[static_cast<std::size_t> (problem.m - 1)] = mode.mode.frequency;

    return family;
}

double strongest (const HeardTap& tap)
{
    double level = 0.0;

    for (const auto& partial : tap.partials)
        level = std::max (level, partial.level());

    return level;
}

/** 0 to 1: agreement with one tap. A mode counts by the distance and, mildly, the level of the nearest partial; strong partials
   between the modes count against. */
double agreement (const Family& family, const HeardTap& tap)
{
    const double level = strongest (tap);

    if (level <= 0.0)
        return 0.0;

    double found = 0.0, explained = 0.0, all = 0.0;

    for (const double expected : family)
    {
        double best = 0.0;

        for (const auto& partial : tap.partials)
        {
            const double off = modal::centsBetween (expected, partial.frequency) / tolerance;
            best = std::max (best, std::exp (-0.5 * off * off) * std::pow (partial.level() / level, 0.25));
        }

        found += best / families;
    }

    for (const auto& partial : tap.partials)
    {
        if (partial.frequency < 0.9 * family.front() || partial.frequency > 1.05 * family.back())
            continue;

        double nearest = 0.0;

        for (const double expected : family)
        {
            const double off = modal::centsBetween (expected, partial.frequency) / tolerance;
            nearest = std::max (nearest, std::exp (-0.5 * off * off));
        }

        explained += partial.level() * nearest;
        all += partial.level();
    }

    return found * (all > 0.0 ? 0.3 + 0.7 * explained / all : 0.0);
}

} // namespace

std::vector<HeadStart> headStarts (const HeadFitSetup& setup, const std::vector<HeardTap>& taps)
{
    const auto single = modal::asTapped (setup.drum, setup.side);
    const double highest = modal::yieldTension (single.batter), lowest = 0.01 * highest;
    const double ratio = std::pow (highest / lowest, 1.0 / steps);

    const auto problems = problemsOf (single);
    const auto matchAt = [&] (double tension)
    {
        const auto family = familyAt (problems, single, tension);
        double sum = 0.0;
        int count = 0;

        for (const auto& tap : taps)
            if (! tap.hasPatch)
            {
                sum += agreement (family, tap);
                ++count;
            }

        return count > 0 ? sum / count : 0.0;
    };

    std::vector<HeadStart> tried, peaks;

    for (int i = 0; i <= steps; ++i)
    {
        const double tension = lowest * std::pow (ratio, i);
        tried.push_back ({ tension, matchAt (tension) });
    }

    for (std::size_t i = 0; i < tried.size(); ++i)
        if (tried[i].match > 0.0 && (i == 0 || tried[i].match >= tried[i - 1].match) &&
            (i + 1 == tried.size() || tried[i].match > tried[i + 1].match))
            peaks.push_back (tried[i]);

    std::sort (peaks.begin(), peaks.end(), [] (const HeadStart& a, const HeadStart& b) { return a.match > b.match; });
    peaks.resize (std::min (peaks.size(), mostStarts));

    for (auto& peak : peaks)
    {
        const double coarse = peak.tension;

        for (int i = -10; i <= 10; ++i)
            if (const double tension = coarse * std::pow (ratio, 0.1 * i), match = matchAt (tension); match > peak.match)
                peak = { tension, match };
    }

    return peaks;
}

} // namespace fitting
