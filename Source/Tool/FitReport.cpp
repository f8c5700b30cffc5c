#include "FitReport.h"

#include "TextTable.h"

#include "Fitting/RodResponse.h"
#include "Modal/NumberText.h"
#include "Modal/pitch/Note.h"
#include "Wording/FitText.h"

#include <algorithm>
#include <cmath>

namespace tool
{

using namespace fitting;
using namespace modal;

namespace
{
std::string withError (const Estimate& estimate, int decimals, const char* unit)
{
    return fixedText (estimate.value, decimals) + " +/- " + fixedText (estimate.error, decimals) + " " + unit;
}

/** What to turn, and how probable it is that one lug alone is off. */
std::string lugsText (const HeadFit& fit, HeadSide side, const DrumSpec& drum)
{
    const auto verdict = fit.verdict();

    if (verdict.kind == LugVerdict::Kind::unknown)
        return {};

    const auto turns = verdict.correction != 0.0
                           ? std::optional (turnsForLugCents (verdict.correction, drum, side, fit.tension.value))
                           : std::nullopt;
    std::string text = "  " + wording::action (verdict, turns) + "\n";

    if (const auto reason = wording::reason (verdict); ! reason.empty())
        text += "  " + reason + "\n";

    for (const auto& suspect : fit.suspects)
        if (std::find (verdict.lugs.begin(), verdict.lugs.end(), suspect.lug) != verdict.lugs.end())
            text += "  lug " + std::to_string (suspect.lug + 1) + "     " + signedText (suspect.cents.value, 0) + " +/- " +
                    fixedText (suspect.cents.error, 0) + " cents if it alone is off, probability " +
                    fixedText (100.0 * suspect.probability, 0) + " %\n";

    return text;
}

/** Each lug over the head's tap note. */
std::string lugTable (const HeadFit& fit)
{
    if (fit.lugCents.empty())
        return {};

    TextTable table ({ Align::right, Align::right, Align::left });
    table.add ({ "LUG", "CENTS FROM TAP NOTE", "" });

    for (std::size_t k = 0; k < fit.lugCents.size(); ++k)
    {
        const auto& [value, error] = fit.lugCents[k];
        table.add ({ std::to_string (k + 1), signedText (value, 0) + " +/- " + fixedText (error, 0),
                     std::abs (value) < error ? "even within the uncertainty" : "" });
    }

    return table.written();
}

std::string findingsText (const std::vector<Finding>& findings)
{
    std::string text;

    for (const auto& finding : findings)
        text += (finding.severity == Finding::Severity::warning ? "  WARNING  " : "  NOTE  ") + wording::text (finding) + "\n";

    return text;
}
} // namespace

std::string textOf (const HeadFit& fit, HeadSide side, const DrumSpec& drum)
{
    const auto note = [] (double hertz) { return Note::fromFrequency (hertz).nameWithCents(); };
    std::string text = side == HeadSide::batter ? "BATTER\n" : "RESONANT\n";

    if (fit.isPossible)
    {
        text += "  tap note  " + note (fit.tapNote.value) + "  " + withError (fit.tapNote, 2, "Hz") + "\n";
        text += "  tension   " + withError (fit.tension, 0, "N/m") + "\n";
        text += "  mass      " +
                withError ({ 100.0 * fit.massRatio.value, 100.0 * fit.massRatio.error }, 1, "% of the specified mass") + "\n";

        if (fit.lossRatio.error > 0.0)
            text += "  losses    " +
                    withError ({ 100.0 * fit.lossRatio.value, 100.0 * fit.lossRatio.error }, 0, "% of the predicted losses") +
                    "\n";

        for (const auto& wave : fit.lugWaves)
            text += "  unevenness  " + wording::text (wave) + "\n";

        text += lugsText (fit, side, drum) + lugTable (fit);
    }
    else
    {
        text += "  No fit.\n";
    }

    return text + findingsText (fit.findings);
}

std::string textOf (const DrumFit& fit, const DrumSpec& drum)
{
    if (! fit.isPossible)
        return "No fit.\n" + findingsText (fit.findings);

    TextTable table ({ Align::right, Align::left, Align::left, Align::right });
    table.add ({ "HZ", "MODE", "HEAD", "CENTS FROM FIT" });

    for (const auto& partial : fit.partials)
    {
        const auto& mode = partial.mode;
        table.add ({ fixedText (partial.frequency, 1), "(" + std::to_string (mode.m) + "," + std::to_string (mode.n) + ")",
                     mode.shares.batter > mode.shares.resonant ? "batter" : "resonant", signedText (partial.cents, 1) });
    }

    return textOf (fit.batter, HeadSide::batter, drum) + textOf (fit.resonant, HeadSide::resonant, drum) + "MODES HEARD\n" + table.written() +
           findingsText (fit.findings);
}

} // namespace tool
