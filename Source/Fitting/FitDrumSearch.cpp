#include "FitDrumSearch.h"

#include "FitDrumStart.h"

#include <algorithm>

namespace fitting
{

std::vector<FitDrumIteration> searchDrum (const DrumFitSetup& setup, const std::vector<Line>& lines)
{
    std::vector<FitDrumIteration> fits;

    for (const auto& start : startsOfDrumFit (setup, lines))
        if (FitDrumIteration trial (setup, lines, start.batter, start.resonant); trial.run())
            fits.push_back (std::move (trial));

    std::sort (fits.begin(), fits.end(),
               [] (const FitDrumIteration& a, const FitDrumIteration& b) { return a.plausibility() > b.plausibility(); });
    return fits;
}

} // namespace fitting
