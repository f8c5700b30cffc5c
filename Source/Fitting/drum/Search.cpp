#include "Search.h"

#include "Modal/Tuning.h"
#include "Start.h"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace fitting
{
namespace
{

/** The most plausible first; of several that ended at the same tensions one. */
std::vector<DrumIteration> differentOnes (std::vector<DrumIteration> fits)
{
    constexpr double same = 0.01; // ln of tension
    std::sort (fits.begin(), fits.end(),
               [] (const DrumIteration& a, const DrumIteration& b) { return a.plausibility() > b.plausibility(); });
    std::vector<DrumIteration> different;

    for (auto& fit : fits)
        if (std::none_of (different.begin(), different.end(),
                          [&] (const DrumIteration& other)
                          { return (fit.state - other.state).head<2>().cwiseAbs().maxCoeff() < same; }))
            different.push_back (std::move (fit));

    return different;
}

/** Fits with clearly another tension of the resonant head and the batter head as in `fit`. Of a resonant head that is hardly
   heard a few faint lines decide, each of which may be another mode: every choice of them has a tension of its own. */
std::vector<DrumIteration> withOtherResonant (const DrumIteration& fit, const DrumFitSetup& setup, const std::vector<Line>& lines)
{
    constexpr int steps = 24;
    constexpr double slackest = 0.05; // of yield
    const double yield = modal::yieldTension (setup.drum.resonant), step = -std::log (slackest) / (steps - 1);
    std::vector<DrumIteration> others;

    for (int i = 0; i < steps; ++i)
    {
        DrumIteration trial (setup, lines, std::exp (fit.state[0]), yield * std::exp (-i * step));
        trial.prior[1] = step; // it stands for its own part of the range

        if (trial.run (DrumIteration::Reach::nearby) && std::abs (trial.state[1] - fit.state[1]) > step)
            others.push_back (std::move (trial));
    }

    return others;
}

} // namespace

std::vector<DrumIteration> searchDrum (const DrumFitSetup& setup, const std::vector<Line>& lines)
{
    std::vector<DrumIteration> fits;

    for (const auto& start : drumStarts (setup, lines))
        if (DrumIteration trial (setup, lines, start.batter, start.resonant); trial.run())
            fits.push_back (std::move (trial));

    fits = differentOnes (std::move (fits));

    // A second recording judges by how the lines with a name move: fits that name fewer of them would gain from it.
    if (fits.empty() || ! setup.drum.hasResonantHead() || setup.turned || setup.weighted)
        return fits;

    auto others = withOtherResonant (fits.front(), setup, lines);
    std::move (others.begin(), others.end(), std::back_inserter (fits));
    return differentOnes (std::move (fits));
}

std::vector<DrumIteration> followOnOther (const DrumFitSetup& other, const std::vector<Line>& lines,
                                          const std::vector<DrumIteration>& fits)
{
    constexpr std::size_t followed = 4;
    const auto tensionOn = [&] (const DrumIteration& fit, int side)
    {
        const auto& stated = fit.setUp().drum;
        const auto density = [side] (const modal::DrumSpec& drum)
        { return (side == 0 ? drum.batter : drum.resonant).baseDensity(); };
        return std::exp (fit.state[side]) * std::pow (other.drum.diameter / stated.diameter, 2) * density (other.drum) /
               density (stated);
    };
    std::vector<DrumIteration> found;

    for (std::size_t i = 0; i < std::min (followed, fits.size()); ++i)
        if (DrumIteration trial (other, lines, tensionOn (fits[i], 0), tensionOn (fits[i], 1)); trial.run())
            found.push_back (std::move (trial));

    return differentOnes (std::move (found));
}

} // namespace fitting
