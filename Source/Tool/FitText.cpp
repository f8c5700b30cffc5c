#include "FitText.h"

#include "TextTable.h"

#include "Fitting/drum/Pairs.h"
#include "Modal/pitch/Note.h"

#include <cmath>

namespace tool
{

using namespace fitting;
using namespace modal;

namespace
{
std::string withError (const Estimate& estimate, int decimals, const char* unit)
{
    return fixed (estimate.value, decimals) + " +/- " + fixed (estimate.error, decimals) + " " + unit;
}

/** Which lug it is, if one alone is off. */
std::string lugsInWords (const HeadFit& fit)
{
    constexpr double worthSaying = 0.05; // probability

    if (fit.suspects.empty())
        return {};

    if (fit.unevenness <= clearlyUneven)
        return "  No lug stands out.\n";

    const auto& first = fit.suspects.front();
    std::string lugs;

    for (const auto& suspect : fit.suspects)
        if (&suspect == &first || suspect.probability > worthSaying)
            lugs += (lugs.empty() ? "" : " or ") + std::to_string (suspect.lug + 1) + " (probability " +
                    fixed (100.0 * suspect.probability, 0) + " %)";

    return "  If one lug alone is off it is lug " + lugs + ", by " + withSign (first.cents.value, 0) + " +/- " +
           fixed (first.cents.error, 0) + " cents.\n";
}

/** Each lug; one that may as well be even says no more than within what. */
std::string lugTable (const HeadFit& fit)
{
    if (fit.lugCents.empty())
        return {};

    TextTable table ({ Align::right, Align::right, Align::left });
    table.add ({ "LUG", "CENTS OVER THE HEAD", "" });

    for (std::size_t k = 0; k < fit.lugCents.size(); ++k)
    {
        const auto& [value, error] = fit.lugCents[k];
        table.add ({ std::to_string (k + 1), withSign (value, 0) + " +/- " + fixed (error, 0),
                     std::abs (value) < error ? "not told from even" : "" });
    }

    return table.written();
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

    for (const auto& warning : fit.warnings)
        text += "  WARNING  " + warning + "\n";

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

        text += lugsInWords (fit) + lugTable (fit);
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
