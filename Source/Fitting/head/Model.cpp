#include "Model.h"

#include "Fitting/common/HeadMass.h"
#include "Modal/Units.h"
#include "Modal/heads/HeadMatrices.h"
#include "Modal/heads/OneHead.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace fitting
{
namespace
{

// Modes closer than this are not resolved in half a second.
constexpr double apart = 7.0; // Hz

modal::DrumSpec drumOf (const HeadFitSetup& setup, const HeadState& state, bool hasPatch)
{
    auto drum = withHeadMass (modal::asTapped (setup.drum, setup.side), modal::HeadSide::batter, state.massRatio);

    if (hasPatch && setup.patch)
    {
        auto patch = *setup.patch;
        patch.head = modal::HeadSide::batter;
        patch.mass *= state.patchRatio;
        drum.muffling.push_back (patch);
    }

    return drum;
}

modal::Tensions tensionsOf (const HeadState& state)
{
    modal::Tensions tensions{ state.tension, 0.0 };

    if (state.lugs.size() > 0 && state.lugs.cwiseAbs().maxCoeff() > 0.0)
        tensions.batterLugs.assign (state.lugs.begin(), state.lugs.end());

    return tensions;
}

} // namespace

HeadState HeadState::moved (const Eigen::VectorXd& step) const
{
    HeadState next = *this;
    next.tension *= std::exp (step[0]);
    next.massRatio *= std::exp (step[1]);
    next.patchRatio *= std::exp (step[2]);
    next.lugs += step.tail (lugs.size());
    return next;
}

HeadModel::HeadModel (const HeadFitSetup& setup, const HeadState& headState, bool hasPatch, bool movesLugs,
                      double highestFrequency)
    : state (headState), radius (setup.drum.radius())
{
    const auto drum = drumOf (setup, state, hasPatch);
    modes = modal::solve (drum, tensionsOf (state), { .highestFrequency = highestFrequency, .extraFunctions = 4 });
    filmDensity = drum.batter.baseDensity();

    const auto size = static_cast<Eigen::Index> (modes.basis.size());
    stretch.resize (size);

    for (Eigen::Index i = 0; i < size; ++i)
        stretch[i] = std::pow (modes.basis[static_cast<std::size_t> (i)].zero / radius, 2);

    if (hasPatch && setup.patch)
    {
        patchMass = drum.muffling.back().mass;
        patchMean = modal::meanOver (modes.basis, drum.muffling.back(), radius);
    }

    for (Eigen::Index k = 0; movesLugs && k < state.lugs.size(); ++k)
    {
        std::vector<double> one (static_cast<std::size_t> (state.lugs.size()), 0.0);
        one[static_cast<std::size_t> (k)] = 1.0;
        lugOnModes.push_back (modes.batter.transpose() * modal::unevenStiffness (modes.basis, modal::harmonicsOf (one), radius) *
                              modes.batter);
    }

    makeGroups();
}

void HeadModel::makeGroups()
{
    std::optional<std::size_t> last;

    for (Eigen::Index i = 0; i < modes.size(); ++i)
    {
        const auto& mode = modes.modes[static_cast<std::size_t> (i)];

        if (mode.isAirMode)
            continue;

        // Modes (0,n) decay before the others can be measured, so they form their own groups.
        if (mode.m == 0)
        {
            found.push_back ({ mode.m, mode.n, false, { i } });
            continue;
        }

        const auto frequencyOfLast = [&] { return modes.modes[static_cast<std::size_t> (found[*last].modes.back())].frequency; };

        if (! last || mode.frequency - frequencyOfLast() >= apart)
        {
            last = found.size();
            found.push_back ({ mode.m, mode.n, false, {} });
        }

        auto& group = found[*last];
        group.isMixed = group.isMixed || mode.m != group.m || mode.n != group.n;
        group.modes.push_back (i);
    }
}

HeadModel::Heard HeadModel::heardAt (const Group& group, const HeardTap& tap) const
{
    const double angle = state.lugs.size() > 0 ? modal::units::twoPi * tap.lug / static_cast<double> (state.lugs.size()) : 0.0;
    const double r = radius - tap.inset;
    const auto count = static_cast<Eigen::Index> (group.modes.size());
    Eigen::VectorXd shape (count);

    for (Eigen::Index i = 0; i < count; ++i)
    {
        const auto& column = modes.batter.col (group.modes[static_cast<std::size_t> (i)]);
        shape[i] = 0.0;

        for (std::size_t b = 0; b < modes.basis.size(); ++b)
            if (const double c = column[static_cast<Eigen::Index> (b)]; c != 0.0)
                shape[i] += c * modes.basis[b].at (r, angle, radius);
    }

    Heard heard;
    heard.strength = shape.squaredNorm();
    heard.lowest = modes.modes[static_cast<std::size_t> (group.modes.front())].frequency;
    heard.highest = modes.modes[static_cast<std::size_t> (group.modes.back())].frequency;
    shape /= std::sqrt (std::max (heard.strength, 1.0e-30));

    Eigen::VectorXd motion = Eigen::VectorXd::Zero (modes.batter.rows());
    double square = 0.0;

    for (Eigen::Index i = 0; i < count; ++i)
    {
        const auto index = group.modes[static_cast<std::size_t> (i)];
        const auto& mode = modes.modes[static_cast<std::size_t> (index)];
        const double share = shape[i] * shape[i];
        motion += shape[i] * modes.batter.col (index);
        square += share * std::pow (mode.angularFrequency(), 2);
        heard.decay.radiation += share * mode.decay.radiation;
        heard.decay.film += share * mode.decay.film;
        heard.decay.bending += share * mode.decay.bending;
        heard.decay.ply += share * mode.decay.ply;
        heard.decay.edge += share * mode.decay.edge;
        heard.decay.air += share * mode.decay.air;
        heard.decay.muffling += share * mode.decay.muffling;
    }

    heard.frequency = std::sqrt (square) / modal::units::twoPi;

    auto& slope = heard.gradient;
    slope.setZero (state.parameters());
    slope[0] = state.tension * motion.cwiseAbs2().dot (stretch);
    slope[1] = -square * filmDensity * motion.squaredNorm();

    if (patchMean.size() > 0)
        slope[2] = -square * patchMass * motion.dot (patchMean * motion);

    for (std::size_t lugIndex = 0; lugIndex < lugOnModes.size(); ++lugIndex)
    {
        double sum = 0.0;
        const auto k = static_cast<Eigen::Index> (lugIndex);
        const auto& lug = lugOnModes[lugIndex];

        for (Eigen::Index i = 0; i < count; ++i)
            for (Eigen::Index j = 0; j < count; ++j)
                sum += shape[i] * shape[j] *
                       lug (group.modes[static_cast<std::size_t> (i)], group.modes[static_cast<std::size_t> (j)]);

        slope[HeadState::others + k] = state.tension * sum;
        slope[0] += state.tension * state.lugs[k] * sum;
    }

    slope /= 2.0 * square;
    return heard;
}

} // namespace fitting
