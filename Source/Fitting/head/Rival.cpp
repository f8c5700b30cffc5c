#include "Rival.h"

#include "Fitting/drum/Search.h"
#include "Modal/InputError.h"
#include "Modal/Units.h"
#include "Modal/heads/OneHead.h"

#include <algorithm>

namespace fitting
{

std::vector<Line> linesOfBareTaps (const std::vector<HeardTap>& taps)
{
    std::vector<std::vector<Partial>> bare;

    for (const auto& tap : taps)
        if (! tap.hasPatch && ! tap.partials.empty())
            bare.push_back (tap.partials);

    return commonLines (bare);
}

std::optional<Rival> likeliestRival (const HeadFitSetup& setup, const std::vector<Line>& shared)
{
    constexpr std::size_t toSpare = 2; // lines beyond the unknowns: tension and mass of each head that rings
    constexpr double unusual = 2.0;    // standard deviations of a head's mass
    const auto lines = tellingLines (shared);

    if (lines.size() < 2 + toSpare || ! modal::asTapped (setup.drum, setup.side).muffling.empty())
        return std::nullopt;

    using Kind = Finding::Kind;
    const auto setupOf = [&] (modal::DrumSpec drum)
    {
        return DrumFitSetup{ .drum = std::move (drum),
                             .massTolerance = setup.massTolerance,
                             .modelError = setup.modelError,
                             .decayError = setup.decayError };
    };
    const auto asStated = setupOf (modal::asTapped (setup.drum, setup.side));
    const auto fits = searchDrum (asStated, lines);
    const double stated = fits.empty() ? -1.0e9 : fits.front().weight();
    std::optional<Rival> best;
    const double farthest = unusual * std::max (setup.massTolerance, 1.0e-3);
    const auto compare = [&] (Kind kind, const modal::DrumSpec& drum)
    {
        const auto rival = setupOf (drum);
        const auto rivals = kind == Kind::otherHeadRings ? searchDrum (rival, lines) : followOnOther (rival, lines, fits);

        // A rival must fit well itself, with a head of nearly the stated mass.
        for (const auto& found : rivals)
            if (const double lead = found.weight() - stated;
                found.misfit < goodMisfit && found.evidence > goodEvidence * weightOf (lines) &&
                found.state.tail<2>().cwiseAbs().maxCoeff() < farthest && (! best || lead > best->lead))
                best = Rival{ kind, drum.diameter, lead };
    };
    const bool isOpen = asStated.drum.bottom == modal::Bottom::open;
    auto other = asStated.drum;
    other.bottom = isOpen ? modal::Bottom::closed : modal::Bottom::open;
    compare (isOpen ? Kind::closedBelow : Kind::openBelow, other);

    if (setup.drum.hasResonantHead() && lines.size() >= 4 + toSpare)
        compare (Kind::otherHeadRings, modal::withHeadOnTop (setup.drum, setup.side));

    for (const int inches : { -2, -1, 1, 2 })
    {
        other = asStated.drum;
        other.diameter += inches * modal::units::inch;

        if (other.diameter > 0.7 * asStated.drum.diameter)
            compare (Kind::otherDiameter, other);
    }

    return best;
}

Finding Rival::warning (double statedDiameter) const
{
    if (kind == Finding::Kind::otherDiameter)
        return { kind, Finding::Severity::warning, { diameter, statedDiameter } };

    return { kind, Finding::Severity::warning };
}

} // namespace fitting
