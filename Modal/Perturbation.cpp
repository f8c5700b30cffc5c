#include "Perturbation.h"

#include "Units.h"

#include <Eigen/Eigenvalues>

#include <algorithm>
#include <cmath>

namespace modal
{

namespace
{

/** Brings a matrix on the basis to the modes: Φᵀ A Φ, or zero for an empty one. */
Eigen::MatrixXd onModes (const DrumModes& drum, const Eigen::MatrixXd& batter, const Eigen::MatrixXd& resonant)
{
    Eigen::MatrixXd sum = Eigen::MatrixXd::Zero (drum.size(), drum.size());

    if (batter.size() > 0)
        sum += drum.batter.transpose() * batter * drum.batter;

    if (resonant.size() > 0)
        sum += drum.resonant.transpose() * resonant * drum.resonant;

    return sum;
}

/** Adds a share of one decay to another. */
void addShare (Decay& sum, const Decay& part, double share)
{
    sum.radiation += share * part.radiation;
    sum.film += share * part.film;
    sum.ply += share * part.ply;
    sum.edge += share * part.edge;
    sum.air += share * part.air;
    sum.muffling += share * part.muffling;
}

/** A mode that is a mixture of others, its name that of the strongest part. */
Mode mixed (const std::vector<Mode>& parts, const Eigen::VectorXd& mixture)
{
    Eigen::Index strongest = 0;
    mixture.cwiseAbs().maxCoeff (&strongest);
    Mode mode = parts[static_cast<std::size_t> (strongest)];
    mode.decay = {};
    mode.shares = {};

    for (Eigen::Index i = 0; i < mixture.size(); ++i)
    {
        const auto& part = parts[static_cast<std::size_t> (i)];
        const double share = mixture[i] * mixture[i];
        addShare (mode.decay, part.decay, share);
        mode.shares.batter += share * part.shares.batter;
        mode.shares.resonant += share * part.shares.resonant;
    }

    mode.shares.air = std::max (0.0, 1.0 - mode.shares.batter - mode.shares.resonant);
    return mode;
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

    Eigen::MatrixXd stiffness = onModes (even, added.batterStiffness, added.resonantStiffness);
    Eigen::MatrixXd mass = onModes (even, added.batterMass, added.resonantMass);
    const Eigen::MatrixXd resistance = onModes (even, added.batterResistance, added.resonantResistance);
    mass.diagonal().array() += 1.0;

    for (Eigen::Index i = 0; i < even.size(); ++i)
        stiffness (i, i) += std::pow (even.modes[static_cast<std::size_t> (i)].angularFrequency(), 2);

    const Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd> solver (stiffness, mass);
    const auto& mixtures = solver.eigenvectors();

    DrumModes result = even;
    result.isUniform = false;
    result.batter = even.batter * mixtures;
    result.resonant = even.resonant * mixtures;

    for (Eigen::Index i = 0; i < mixtures.cols(); ++i)
    {
        auto& mode = result.modes[static_cast<std::size_t> (i)];
        mode = mixed (even.modes, mixtures.col (i));
        mode.frequency = std::sqrt (std::max (0.0, solver.eigenvalues()[i])) / units::twoPi;
        mode.decay.muffling += 0.5 * mixtures.col (i).dot (resistance * mixtures.col (i));
        mode.togetherness = 2.0 * result.batter.col (i).dot (result.resonant.col (i)) /
                            (result.batter.col (i).squaredNorm() + result.resonant.col (i).squaredNorm());
    }

    return result;
}

} // namespace modal
