#include "Search.h"

#include "Start.h"

#include <algorithm>
#include <cmath>

namespace fitting
{
namespace
{

void sortByPlausibility (std::vector<DrumIteration>& fits)
{
    std::sort (fits.begin(), fits.end(),
               [] (const DrumIteration& a, const DrumIteration& b) { return a.plausibility() > b.plausibility(); });
}

} // namespace

std::vector<DrumIteration> searchDrum (const DrumFitSetup& setup, const std::vector<Line>& lines)
{
    std::vector<DrumIteration> fits;

    for (const auto& start : drumStarts (setup, lines))
        if (DrumIteration trial (setup, lines, start.batter, start.resonant); trial.run())
            fits.push_back (std::move (trial));

    sortByPlausibility (fits);
    return fits;
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

    sortByPlausibility (found);
    return found;
}

} // namespace fitting
