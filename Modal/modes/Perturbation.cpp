#include "Perturbation.h"

#include "Modal/InputError.h"
#include "Modal/Units.h"

#include <Eigen/Eigenvalues>

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>
#include <vector>

namespace modal
{

namespace
{

/** Modes that an addition may mix with one another, and the basis functions that they are made of. */
struct Group
{
    std::vector<Eigen::Index> modes, functions;
};

/** All in one, or each order and parity on its own. */
std::vector<Group> groupsOf (const DrumModes& drum, bool isApart)
{
    std::map<std::pair<int, Parity>, Group> groups;
    const auto groupOf = [&] (const auto& item) -> Group&
    { return groups[isApart ? std::pair (item.m, item.parity) : std::pair (0, Parity::cosine)]; };

    for (Eigen::Index i = 0; i < drum.size(); ++i)
        groupOf (drum.modes[static_cast<std::size_t> (i)]).modes.push_back (i);

    for (std::size_t i = 0; i < drum.basis.size(); ++i)
        groupOf (drum.basis[i]).functions.push_back (static_cast<Eigen::Index> (i));

    std::vector<Group> result;

    for (auto& [kind, group] : groups)
        if (! group.modes.empty())
            result.push_back (std::move (group));

    return result;
}

Eigen::MatrixXd part (const Eigen::MatrixXd& whole, const std::vector<Eigen::Index>& rows,
                      const std::vector<Eigen::Index>& columns)
{
    Eigen::MatrixXd result (static_cast<Eigen::Index> (rows.size()), static_cast<Eigen::Index> (columns.size()));

    for (Eigen::Index j = 0; j < result.cols(); ++j)
        for (Eigen::Index i = 0; i < result.rows(); ++i)
            result (i, j) = whole (rows[static_cast<std::size_t> (i)], columns[static_cast<std::size_t> (j)]);

    return result;
}

/** Adds a share of one decay to another. */
void addShare (Decay& sum, const Decay& part, double share)
{
    sum.radiation += share * part.radiation;
    sum.film += share * part.film;
    sum.bending += share * part.bending;
    sum.ply += share * part.ply;
    sum.edge += share * part.edge;
    sum.air += share * part.air;
    sum.muffling += share * part.muffling;
}

/** A mode that is a mixture of others of a group, its name that of the strongest part. */
Mode mixed (const std::vector<Mode>& modes, const Group& group, const Eigen::VectorXd& mixture)
{
    const auto partOf = [&] (Eigen::Index i) -> const Mode&
    { return modes[static_cast<std::size_t> (group.modes[static_cast<std::size_t> (i)])]; };
    Eigen::Index strongest = 0;
    mixture.cwiseAbs().maxCoeff (&strongest);
    Mode mode = partOf (strongest);
    mode.decay = {};
    mode.shares = {};
    double alike = 0.0;

    for (Eigen::Index i = 0; i < mixture.size(); ++i)
    {
        const auto& part = partOf (i);
        const double share = mixture[i] * mixture[i];
        addShare (mode.decay, part.decay, share);
        mode.shares.batter += share * part.shares.batter;
        mode.shares.resonant += share * part.shares.resonant;
        alike += part.m == mode.m && part.n == mode.n ? share : 0.0;
    }

    mode.purity = alike / mixture.squaredNorm();
    return mode;
}

/** A mode of the perturbed drum and its shape over the functions of its group. */
struct Mixture
{
    Mode mode;
    const Group* group;
    Eigen::VectorXd batter, resonant;
};

std::vector<Mixture> mix (const DrumModes& even, const Perturbation& added, const Group& group)
{
    const auto batter = part (even.batter, group.functions, group.modes);
    const auto resonant = part (even.resonant, group.functions, group.modes);
    const auto size = static_cast<Eigen::Index> (group.modes.size());

    // Brings matrices on the basis to the modes, ΦᵀAΦ; an empty one adds nothing.
    const auto onModes = [&] (const Eigen::MatrixXd& onBatter, const Eigen::MatrixXd& onResonant)
    {
        Eigen::MatrixXd sum = Eigen::MatrixXd::Zero (size, size);

        if (onBatter.size() > 0)
            sum += batter.transpose() * part (onBatter, group.functions, group.functions) * batter;

        if (onResonant.size() > 0)
            sum += resonant.transpose() * part (onResonant, group.functions, group.functions) * resonant;

        return sum;
    };

    Eigen::MatrixXd stiffness = onModes (added.batterStiffness, added.resonantStiffness);
    const Eigen::MatrixXd massOnBatter = onModes (added.batterMass, {}), massOnResonant = onModes ({}, added.resonantMass);
    Eigen::MatrixXd mass = massOnBatter + massOnResonant;
    const Eigen::MatrixXd resistance = onModes (added.batterResistance, added.resonantResistance);
    mass.diagonal().array() += 1.0;

    for (Eigen::Index i = 0; i < size; ++i)
        stiffness (i, i) +=
            std::pow (even.modes[static_cast<std::size_t> (group.modes[static_cast<std::size_t> (i)])].angularFrequency(), 2);

    const Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd> solver (stiffness, mass);
    std::vector<Mixture> mixtures;

    if (solver.eigenvalues()[0] <= 0.0)
        throw InputError ("uneven lugs", "a head that is slack in places",
                          "lugs so near to each other that it is taut everywhere");

    for (Eigen::Index i = 0; i < size; ++i)
    {
        const auto& shares = solver.eigenvectors().col (i);
        auto& mixture =
            mixtures.emplace_back (Mixture{ mixed (even.modes, group, shares), &group, batter * shares, resonant * shares });
        auto& mode = mixture.mode;
        mode.frequency = std::sqrt (solver.eigenvalues()[i]) / units::twoPi;
        // What lies on a head moves with it.
        mode.shares.batter += shares.dot (massOnBatter * shares);
        mode.shares.resonant += shares.dot (massOnResonant * shares);
        mode.shares.air = std::max (0.0, 1.0 - mode.shares.batter - mode.shares.resonant);
        mode.decay.muffling += 0.5 * shares.dot (resistance * shares);
        mode.headCorrelation =
            2.0 * mixture.batter.dot (mixture.resonant) / (mixture.batter.squaredNorm() + mixture.resonant.squaredNorm());
    }

    return mixtures;
}

} // namespace

bool Perturbation::isEmpty() const noexcept
{
    return batterStiffness.size() + resonantStiffness.size() + batterMass.size() + resonantMass.size() + batterResistance.size() +
               resonantResistance.size() ==
           0;
}

DrumModes perturbed (const DrumModes& even, const Perturbation& added)
{
    if (added.isEmpty() || even.size() == 0)
        return even;

    const bool staysUniform = even.isUniform && added.isRound;
    const auto groups = groupsOf (even, staysUniform);
    std::vector<Mixture> mixtures;

    for (const auto& group : groups)
        for (auto& mixture : mix (even, added, group))
            mixtures.push_back (std::move (mixture));

    std::stable_sort (mixtures.begin(), mixtures.end(),
                      [] (const Mixture& a, const Mixture& b) { return a.mode.frequency < b.mode.frequency; });

    DrumModes result = even;
    result.isUniform = staysUniform;
    result.batter.setZero();
    result.resonant.setZero();

    for (std::size_t k = 0; k < mixtures.size(); ++k)
    {
        const auto& [mode, group, batter, resonant] = mixtures[k];
        const auto column = static_cast<Eigen::Index> (k);
        result.modes[k] = mode;

        for (std::size_t i = 0; i < group->functions.size(); ++i)
        {
            result.batter (group->functions[i], column) = batter[static_cast<Eigen::Index> (i)];
            result.resonant (group->functions[i], column) = resonant[static_cast<Eigen::Index> (i)];
        }
    }

    return result;
}

} // namespace modal
