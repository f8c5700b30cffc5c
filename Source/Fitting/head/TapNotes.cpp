#include "Fitting/TapNotes.h"

#include "Fitting/common/HeadMass.h"
#include "Lugs.h"
#include "Modal/DrumNumbers.h"
#include "Modal/Tuning.h"
#include "Modal/pitch/Note.h"

#include <cmath>

namespace fitting
{
namespace
{

/** Relative change of tension that keeps the tap note when the head's mass rises by 1 %. */
double tensionPerMassPercent (const HeadFitSetup& setup, double hertz)
{
    constexpr double step = 0.01;
    const auto withMass = [&] (double ratio)
    { return modal::tensionForTapNote (withHeadMass (setup.drum, setup.side, ratio), setup.side, hertz); };
    return std::log (withMass (1.0 + 0.5 * step) / withMass (1.0 - 0.5 * step));
}

/** Each note is that of the tension beside its lug. @param perCent  relative tension per cent of tap note */
LugData lugDataOf (const std::vector<Estimate>& lugCents, double perCent)
{
    const auto lugs = static_cast<Eigen::Index> (lugCents.size());
    LugData data{ Eigen::MatrixXd::Zero (lugs, lugs), Eigen::VectorXd (lugs) };

    for (Eigen::Index k = 0; k < lugs; ++k)
    {
        const auto& [cents, error] = lugCents[static_cast<std::size_t> (k)];
        data.information (k, k) = std::pow (perCent * error, -2);
        data.pull[k] = std::expm1 (perCent * cents) * data.information (k, k);
    }

    return data;
}

} // namespace

HeadFit fitTapNotes (const HeadFitSetup& setup, const std::vector<double>& notes, double readingError)
{
    modal::check (setup.drum);
    modal::requireInRange (readingError, { 0.1, 100.0, "cents" }, "error of a note");
    const auto count = notes.size();

    if (count != 1 && static_cast<int> (count) != setup.drum.lugs)
        throw modal::InputError ("tap notes", std::to_string (count) + " notes",
                                 "one, or one beside each of the " + std::to_string (setup.drum.lugs) + " lugs");

    double logarithm = 0.0;

    for (const double note : notes)
        logarithm += std::log (modal::requireInRange (note, modal::noteRange, "tap note")) / static_cast<double> (count);

    HeadFit fit;
    fit.isPossible = true;
    fit.tapsUsed = static_cast<int> (count);
    fit.tapNote.value = std::exp (logarithm);
    const double meanError = readingError / std::sqrt (static_cast<double> (count));
    fit.tapNote.error = fit.tapNote.value * (std::exp2 (meanError / 1200.0) - 1.0);
    fit.tension.value = modal::tensionForTapNote (setup.drum, setup.side, fit.tapNote.value);

    const double semitone = modal::semitoneTension (setup.drum, setup.side, fit.tension.value);
    const double perCent = std::log1p (semitone) / 100.0;
    const double byMass = tensionPerMassPercent (setup, fit.tapNote.value) * 100.0 * setup.massTolerance;
    fit.tension.error = fit.tension.value * std::hypot (perCent * meanError, byMass);
    fit.massRatio.error = setup.massTolerance;
    fit.findings.push_back ({ Finding::Kind::tapNotesOnly });

    if (count == 1)
    {
        fit.findings.push_back ({ Finding::Kind::oneLugTapped });
        return fit;
    }

    for (const double note : notes)
        fit.lugCents.push_back ({ modal::centsBetween (fit.tapNote.value, note), readingError });

    suspectLugs (fit, lugDataOf (fit.lugCents, perCent), semitone);
    return fit;
}

} // namespace fitting
