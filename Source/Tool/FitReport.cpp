#include "FitReport.h"

#include "TextTable.h"

#include "Files/HeadText.h"
#include "Modal/NumberText.h"
#include "Modal/Units.h"
#include "Modal/pitch/Note.h"
#include "Wording/AnswerText.h"
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

    std::string text = "  " + wording::answer (fit, side, drum) + "\n";

    if (const auto reason = wording::reason (verdict); ! reason.empty())
        text += "  " + reason + "\n";

    for (const auto& suspect : fit.suspects)
        if (std::find (verdict.lugs.begin(), verdict.lugs.end(), suspect.lug) != verdict.lugs.end())
            text += "  lug " + std::to_string (suspect.lug + 1) + "     " + signedText (suspect.cents.value, 0) + " +/- " +
                    fixedText (suspect.cents.error, 0) + " cents if it alone is off, probability " +
                    wording::percentText (suspect.probability) + "\n";

    return text;
}

/** Each lug over the head's tap note. */
std::string lugTable (const HeadFit& fit)
{
    if (fit.lugCents.empty())
        return {};

    TextTable table ({ Column::right, Column::right, Column::left });
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

/** Every tuning that explains the strikes, side by side. */
std::string answersText (const DrumFit& fit, ConcertPitch pitch)
{
    TextTable table ({ Column::right, Column::right, Column::right, Column::left, Column::right, Column::left, Column::left,
                       Column::right, Column::left });
    table.add ({ "ANSWER", "PROBABILITY", "DIAMETER", "BATTER", "", "", "RESONANT", "", "" });
    const auto head = [pitch] (const DrumAnswer::Head& one, std::vector<std::string>& row)
    {
        row.push_back (one.tension.value > 0.0 ? files::headText (one.construction) : "");
        row.push_back (one.tension.value > 0.0 ? withError (one.tension, 0, "N/m") : "unknown");
        row.push_back (one.tension.value > 0.0 ? Note::fromFrequency (one.tapNote.value, pitch).nameWithCents() : "");
    };

    for (std::size_t i = 0; i < fit.answers.size(); ++i)
    {
        const auto& answer = fit.answers[i];
        std::vector<std::string> row{ std::to_string (i + 1), wording::percentText (answer.probability),
                                      asText (answer.diameter / units::inch, 3) + " in" };
        head (answer.batter, row);
        head (answer.resonant, row);
        table.add (row);
    }

    std::string text = "ANSWERS\n" + table.written() + "  " + wording::percentText (noneOfThese) +
                       " is left for a drum or a tuning that is none of these.\n";

    for (const auto side : { HeadSide::batter, HeadSide::resonant })
        if (const auto& first = side == HeadSide::batter ? fit.answers[0].batter : fit.answers[0].resonant;
            first.tension.value > 0.0)
        {
            const auto [low, high] = tensionRange (fit.answers, side);
            text += std::string (side == HeadSide::batter ? "  Batter" : "  Resonant") +
                    ", 95 % over all answers: " + fixedText (low, 0) + " to " + fixedText (high, 0) + " N/m\n";
        }

    const auto decides = wording::whatDecides (fit.answers, pitch);
    return text +
           (decides.empty()
                ? ""
                : "  " + decides +
                      " Give a note that you read with --now-batter or --now-resonant, a turn with --turned, a weight with "
                      "--centre-weight.\n") +
           (contains (fit.findings, Finding::Kind::unexplainedNotes) && decides.empty()
                ? "  A tap note of each head, as you read it, decides most: --now-batter, --now-resonant.\n"
                : "");
}
} // namespace

std::string textOf (const HeadFit& fit, HeadSide side, const DrumSpec& drum, ConcertPitch pitch)
{
    std::string text = side == HeadSide::batter ? "BATTER\n" : "RESONANT\n";

    if (fit.isPossible)
    {
        text += "  tap note  " + Note::fromFrequency (fit.tapNote.value, pitch).nameWithCents() + "  " +
                withError (fit.tapNote, 2, "Hz") + "\n";
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

std::string textOf (const DrumFit& fit, const DrumSpec& drum, double modelError, ConcertPitch pitch)
{
    if (! fit.isPossible)
        return "No fit.\n" + findingsText (fit.findings);

    TextTable table ({ Column::right, Column::left, Column::left, Column::right });
    table.add ({ "HZ", "MODE", "HEAD", "CENTS FROM FIT" });

    for (const auto& partial : fit.partials)
    {
        const auto& mode = partial.mode;
        table.add ({ fixedText (partial.frequency, 1), "(" + std::to_string (mode.m) + "," + std::to_string (mode.n) + ")",
                     mode.shares.batter > mode.shares.resonant ? "batter" : "resonant", signedText (partial.cents, 1) });
    }

    return wording::answer (fit, pitch) + "\n" + answersText (fit, pitch) + textOf (fit.batter, HeadSide::batter, drum, pitch) +
           textOf (fit.resonant, HeadSide::resonant, drum, pitch) + "MODES HEARD\n" + table.written() +
           findingsText (fit.findings) + "  Errors include " + asText (modelError, 3) +
           " cents by which each mode of a real drum may lie off the model's (--model-error); recorded drums: 13 to 19 cents.\n";
}

std::string narrowedText (const DrumFit& without, const DrumFit& with)
{
    if (without.answers.empty() || with.answers.empty())
        return {};

    std::string text = "WHAT YOU ADDED\n";
    const auto isSame = [] (const DrumAnswer& a, const DrumAnswer& b)
    {
        return a.diameter == b.diameter && files::headText (a.batter.construction) == files::headText (b.batter.construction) &&
               files::headText (a.resonant.construction) == files::headText (b.resonant.construction) &&
               std::abs (std::log (a.batter.tension.value / b.batter.tension.value)) < 0.1;
    };
    const auto before = std::find_if (without.answers.begin(), without.answers.end(),
                                      [&] (const DrumAnswer& answer) { return isSame (answer, with.answers.front()); });
    text += "  Answer 1 has a probability of " + wording::percentText (with.answers.front().probability) + ", against " +
            (before == without.answers.end() ? "less than 2 %" : wording::percentText (before->probability)) + " without.\n";

    for (const auto side : { HeadSide::batter, HeadSide::resonant })
    {
        const auto widthOf = [side] (const DrumFit& fit)
        {
            const auto& first = side == HeadSide::batter ? fit.answers[0].batter : fit.answers[0].resonant;

            if (first.tension.value <= 0.0)
                return 0.0;

            const auto [low, high] = tensionRange (fit.answers, side);
            return high - low;
        };
        const double wide = widthOf (without), after = widthOf (with);
        const std::string head = side == HeadSide::batter ? "  The batter's" : "  The resonant head's";

        if (after > 0.0)
            text += head + " 95 % range is " + fixedText (after, 0) + " N/m wide, " +
                    (wide > 0.0 ? "against " + fixedText (wide, 0) + " N/m without.\n" : "and unknown without.\n");
    }

    return text;
}

std::string textOf (const LeftOutCheck& check, int strikes)
{
    TextTable table ({ Column::left, Column::right, Column::right, Column::right });
    table.add ({ "PREDICTED BY", "EXPLAINED", "BY CHANCE", "CENTS" });
    const auto add = [&] (const char* name, const fitting::Prediction& one)
    {
        table.add ({ name, fixedText (100.0 * one.share, 0) + " %", fixedText (100.0 * one.byChance, 0) + " %",
                     fixedText (one.cents, 1) });
    };

    if (check.isFitted)
        add ("fit", check.model);
    else
        table.add ({ "fit", "no fit" });

    add ("heads without air, at their best tensions", check.vacuum);
    add ("random drum", check.random);
    return std::to_string (strikes) + (strikes == 1 ? " STRIKE" : " STRIKES") + " LEFT OUT, " +
           std::to_string (check.linesLeftOut.size()) + " PARTIALS\n" + table.written() +
           "  Explained: within 40 cents of a mode, by loudness. By chance: what partials anywhere would reach.\n";
}

} // namespace tool
