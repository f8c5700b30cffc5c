#include "FitText.h"

#include "TextTable.h"

#include "Modal/FitDrumPairs.h"
#include "Modal/Note.h"

namespace tool
{

using namespace modal;

namespace
{
std::string withError (const Estimate& estimate, int decimals, const char* unit)
{
    return fixed (estimate.value, decimals) + " +/- " + fixed (estimate.error, decimals) + " " + unit;
}

std::string notesOn (const std::vector<std::string>& doubts)
{
    std::string text;

    for (const auto& doubt : doubts)
        text += "  NOTE  " + doubt + "\n";

    return text;
}
} // namespace

std::string textOf (const HeadFit& fit, HeadSide side)
{
    const auto note = [] (double hertz) { return Note::fromFrequency (hertz).nameWithCents(); };
    std::string text = side == HeadSide::batter ? "BATTER\n" : "RESONANT\n";

    if (fit.isPossible)
    {
        text += "  tap note  " + note (fit.tapNote.value) + "  " + withError (fit.tapNote, 2, "Hz") + "\n";
        text += "  tension   " + withError (fit.tension, 0, "N/m") + "\n";
        text += "  mass      " +
                withError ({ 100.0 * fit.massRatio.value, 100.0 * fit.massRatio.error }, 1, "% of the head's construction") +
                "\n";

        if (fit.lossRatio.error > 0.0)
            text += "  losses    " +
                    withError ({ 100.0 * fit.lossRatio.value, 100.0 * fit.lossRatio.error }, 0,
                               "% of those predicted for film and edge") +
                    "\n";

        for (const auto& wave : fit.lugWaves)
            text += "  lugs      " + inWords (wave) + "\n";

        TextTable table ({ Align::right, Align::right });
        table.add ({ "LUG", "CENTS OVER THE HEAD" });

        for (std::size_t k = 0; k < fit.lugCents.size(); ++k)
            table.add (
                { std::to_string (k + 1), withSign (fit.lugCents[k].value, 0) + " +/- " + fixed (fit.lugCents[k].error, 0) });

        text += fit.lugCents.empty() ? "" : table.written();

        if (! fit.suspects.empty() && fit.unevenness > 3.0)
        {
            const auto& first = fit.suspects.front();
            text += "  If one lug alone is off it is lug " + std::to_string (first.lug + 1) + ", by " +
                    withSign (first.cents.value, 0) + " +/- " + fixed (first.cents.error, 0) + " cents (probability " +
                    fixed (100.0 * first.probability, 0) + " %).\n";
        }
        else if (! fit.suspects.empty())
        {
            text += "  No lug stands out.\n";
        }
    }
    else
    {
        text += "  No fit.\n";
    }

    return text + notesOn (fit.doubts);
}

std::string textOf (const DrumFit& fit)
{
    if (! fit.isPossible)
        return "No fit.\n" + notesOn (fit.doubts);

    TextTable table ({ Align::right, Align::left, Align::left, Align::right });
    table.add ({ "HZ", "MODE", "MOSTLY IN", "CENTS OVER THE FIT" });

    for (const auto& partial : fit.partials)
    {
        const auto& mode = partial.mode;
        table.add ({ fixed (partial.frequency, 1), "(" + std::to_string (mode.m) + "," + std::to_string (mode.n) + ")",
                     mode.shares.batter > mode.shares.resonant ? "batter" : "resonant", withSign (partial.cents, 1) });
    }

    return textOf (fit.batter, HeadSide::batter) + textOf (fit.resonant, HeadSide::resonant) + "HEARD\n" + table.written() +
           notesOn (fit.doubts);
}

} // namespace tool
