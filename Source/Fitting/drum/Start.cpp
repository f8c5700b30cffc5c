#include "Start.h"

#include "Fitting/common/Errors.h"
#include "Iteration.h"
#include "Modal/Tuning.h"
#include "Modal/pitch/Note.h"

#include <algorithm>
#include <cmath>

namespace fitting
{
namespace
{

constexpr int batterSteps = 56, mostResonantSteps = 24;
constexpr double slackest = 0.015; // of yield; heads of large toms
constexpr double width = 35.0;     // cents
constexpr double stepError = 45.0; // cents of tap note from one point of the grid to the next, about
constexpr int ordersAtStart = 6;
constexpr double bandOverLowest = 4.0; // how far up lines are compared: above, modes lie too densely to tell
constexpr std::size_t most = 16;       // starts that are worth a fit

} // namespace

std::vector<DrumStart> drumStarts (const DrumFitSetup& setup, const std::vector<Line>& lines)
{
    const double highest = std::clamp (bandOverLowest * lowestLoud (lines), 300.0, 1000.0);
    std::vector<Line> low;
    std::copy_if (lines.begin(), lines.end(), std::back_inserter (low),
                  [=] (const Line& line) { return line.frequency < 0.95 * highest; });

    DrumModel model (setup.drum, highest, ordersAtStart);
    const double batterYield = modal::yieldTension (setup.drum.batter), resonantYield = modal::yieldTension (setup.drum.resonant);
    const int resonantSteps = setup.drum.hasResonantHead() ? mostResonantSteps : 1;
    const auto tensionAt = [] (double yield, int step, int steps)
    { return yield * std::pow (slackest, 1.0 - static_cast<double> (step) / std::max (steps - 1, 1)); };

    // Tap notes over the grid, and what one that was read makes of them, as in DrumIteration::plausibility().
    const auto notesOf = [&] (modal::HeadSide side, double yield, int steps)
    {
        Eigen::ArrayXd notes (steps);

        for (int i = 0; i < steps; ++i)
            notes[i] = modal::tapNote (setup.drum, side, tensionAt (yield, i, steps));

        return notes;
    };
    const auto byReading = [&] (double note, const std::optional<Estimate>& read)
    {
        if (! read)
            return 0.0;

        const double error = std::hypot (centsPerShare * read->error / read->value, setup.modelError, stepError);
        return -0.5 * std::pow (modal::centsBetween (note, read->value) / error, 2);
    };
    const bool hasResonant = setup.drum.hasResonantHead();
    const auto batterNotes = notesOf (modal::HeadSide::batter, batterYield, batterSteps);
    const auto resonantNotes = hasResonant ? notesOf (modal::HeadSide::resonant, resonantYield, resonantSteps) : Eigen::ArrayXd();
    const auto priorAt = [&] (int b, int r)
    {
        return byReading (batterNotes[b], setup.batterNote) +
               (hasResonant ? byReading (resonantNotes[r], setup.resonantNote) + intervalPrior (batterNotes[b], resonantNotes[r])
                            : 0.0);
    };
    Eigen::ArrayXXd found (batterSteps, resonantSteps);

    for (int b = 0; b < batterSteps; ++b)
        for (int r = 0; r < resonantSteps; ++r)
            found (b, r) = priorAt (b, r) + evidence (low,
                                                      model.modesAt (tensionAt (batterYield, b, batterSteps),
                                                                     tensionAt (resonantYield, r, resonantSteps)),
                                                      width, setup.decayError);

    std::vector<DrumStart> peaks;

    for (int b = 0; b < batterSteps; ++b)
        for (int r = 0; r < resonantSteps; ++r)
        {
            const int left = std::max (b - 1, 0), top = std::max (r - 1, 0);
            const auto around =
                found.block (left, top, std::min (b + 2, batterSteps) - left, std::min (r + 2, resonantSteps) - top);

            if (found (b, r) >= around.maxCoeff())
                peaks.push_back (
                    { tensionAt (batterYield, b, batterSteps), tensionAt (resonantYield, r, resonantSteps), found (b, r) });
        }

    std::sort (peaks.begin(), peaks.end(), [] (const DrumStart& a, const DrumStart& b) { return a.evidence > b.evidence; });
    peaks.resize (std::min (peaks.size(), most));
    return peaks;
}

} // namespace fitting
