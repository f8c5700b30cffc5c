#include "Search.h"

#include "Start.h"

#include <algorithm>

namespace fitting
{

std::vector<DrumIteration> searchDrum (const DrumFitSetup& setup, const std::vector<Line>& lines)
{
    std::vector<DrumIteration> fits;

    for (const auto& start : drumStarts (setup, lines))
        if (DrumIteration trial (setup, lines, start.batter, start.resonant); trial.run())
            fits.push_back (std::move (trial));

    std::sort (fits.begin(), fits.end(),
               [] (const DrumIteration& a, const DrumIteration& b) { return a.plausibility() > b.plausibility(); });
    return fits;
}

} // namespace fitting
