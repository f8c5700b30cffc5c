#include "OrderProblem.h"

#include "Modal/Units.h"
#include "Modal/mathematics/Bessel.h"

#include <cmath>

namespace modal
{

namespace
{

/** ∫₀^r J_m(αr) J_m(βr) r dr, by Lommel's integrals. */
double productIntegral (int m, double alpha, double beta, double r)
{
    if (r <= 0.0)
        return 0.0;

    const double ja = besselJ (m, alpha * r), da = besselJPrime (m, alpha * r);

    if (alpha == beta)
        return 0.5 * r * r * (da * da + (1.0 - std::pow (m / (alpha * r), 2)) * ja * ja);

    const double jb = besselJ (m, beta * r), db = besselJPrime (m, beta * r);
    return r * (beta * ja * db - alpha * jb * da) / (alpha * alpha - beta * beta);
}

/** Adds `block` to the rows and columns from (row, column) on, and its transpose opposite if that is another place. */
void addBlock (Eigen::MatrixXd& matrix, Eigen::Index row, Eigen::Index column, const Eigen::MatrixXd& block)
{
    matrix.block (row, column, block.rows(), block.cols()) += block;

    if (row != column)
        matrix.block (column, row, block.cols(), block.rows()) += block.transpose();
}

void addCavity (OrderProblem& problem, const DrumSpec& drum)
{
    const auto& inside = problem.inside;
    const Eigen::Index lower = problem.functions();
    const auto onHeads = [&] (const Eigen::VectorXd& masses) -> Eigen::MatrixXd
    { return inside.overlap * masses.asDiagonal() * inside.overlap.transpose(); };
    const auto addToHeads = [&] (Eigen::MatrixXd& matrix, const Eigen::VectorXd& self, const Eigen::VectorXd& cross)
    {
        addBlock (matrix, 0, 0, onHeads (self));

        if (problem.hasResonant)
        {
            addBlock (matrix, lower, lower, onHeads (self));
            addBlock (matrix, 0, lower, onHeads (cross));
        }
    };

    addToHeads (problem.mass, inside.selfMass, inside.crossMass);
    addToHeads (problem.massSlope, inside.selfSlope, inside.crossSlope);

    // ½ K (u − y)² + ½ (K/ω²) ẏ² for each wave, with y scaled to unit mass.
    for (std::size_t w = 0; w < inside.waves.size(); ++w)
    {
        const auto& wave = inside.waves[w];
        const Eigen::Index at = problem.firstWave() + static_cast<Eigen::Index> (w);
        Eigen::VectorXd squeeze = Eigen::VectorXd::Zero (problem.mass.rows());
        squeeze.head (lower) = inside.overlap.col (wave.q);

        if (problem.hasResonant)
            squeeze.segment (lower, lower) = wave.lowerSign * inside.overlap.col (wave.q);

        squeeze[at] = -wave.angularFrequency / std::sqrt (wave.stiffness);
        problem.airStiffness += wave.stiffness * squeeze * squeeze.transpose();
        problem.mass (at, at) = 1.0;
    }

    if (inside.springStiffness > 0.0)
    {
        Eigen::VectorXd squeeze = Eigen::VectorXd::Zero (problem.mass.rows());
        squeeze.head (lower) = inside.overlap.col (0);

        if (problem.hasResonant)
            squeeze.segment (lower, lower) = -inside.overlap.col (0);

        if (problem.hasVent()) // the plug's displacement, scaled to unit mass
        {
            const double headArea = units::pi * drum.radius() * drum.radius();
            const double plug = drum.air.density * drum.vent.area() * drum.vent.effectiveLength();
            squeeze[problem.ventIndex()] = drum.vent.area() / std::sqrt (headArea * plug);
            problem.mass (problem.ventIndex(), problem.ventIndex()) = 1.0;
        }

        problem.airStiffness += inside.springStiffness * squeeze * squeeze.transpose();
    }
}

} // namespace

Eigen::MatrixXd extraMassMatrix (int m, const Eigen::VectorXd& zeros, const HeadConstruction& head, double radius)
{
    const auto count = zeros.size();
    Eigen::MatrixXd matrix = Eigen::MatrixXd::Zero (count, count);
    const auto extras = extraMasses (head, radius);

    if (extras.empty())
        return matrix;

    // φ's amplitude √2/|J_m'(j)|, with the sign that makes its slope at the rim negative.
    const Eigen::VectorXd amplitude =
        zeros.unaryExpr ([m] (double zero) { return -std::numbers::sqrt2 / besselJPrime (m, zero); });

    for (const auto& extra : extras)
        for (Eigen::Index i = 0; i < count; ++i)
            for (Eigen::Index j = 0; j <= i; ++j)
            {
                const double overlap = productIntegral (m, zeros[i], zeros[j], extra.outerRadius / radius) -
                                       productIntegral (m, zeros[i], zeros[j], extra.innerRadius / radius);
                matrix (i, j) += extra.density * amplitude[i] * amplitude[j] * overlap;
            }

    return matrix.selfadjointView<Eigen::Lower>();
}

Eigen::MatrixXd OrderProblem::stiffness (const Tensions& tensions) const
{
    Eigen::MatrixXd matrix = airStiffness;
    matrix.diagonal().head (functions()) += tensions.batter * stretch;

    if (hasResonant)
        matrix.diagonal().segment (functions(), functions()) += tensions.resonant * stretch;

    return matrix;
}

OrderProblem makeOrderProblem (int m, int functions, const DrumSpec& drum, double waveCutoff)
{
    OrderProblem problem;
    problem.m = m;
    const auto zeros = besselZeros (m, functions);
    problem.zeros = Eigen::Map<const Eigen::VectorXd> (zeros.data(), functions);
    problem.stretch = (problem.zeros / drum.radius()).cwiseAbs2();
    problem.hasResonant = drum.hasResonantHead();
    problem.outside = exterior::staticMass (m, problem.zeros, drum);

    const auto identity = Eigen::MatrixXd::Identity (functions, functions);
    problem.batterExtra = extraMassMatrix (m, problem.zeros, drum.batter, drum.radius());
    problem.batterFilm = drum.batter.baseDensity() * identity + problem.batterExtra;

    if (problem.hasResonant)
    {
        problem.resonantExtra = extraMassMatrix (m, problem.zeros, drum.resonant, drum.radius());
        problem.resonantFilm = drum.resonant.baseDensity() * identity + problem.resonantExtra;
    }

    const bool hasAir = ! drum.air.isVacuum();

    if (hasAir)
    {
        problem.inside = cavity::describe (m, problem.zeros, drum, units::twoPi * waveCutoff);
        problem.outsideChange = exterior::MassChange (m, problem.zeros, problem.outside.rim, drum);
    }

    const bool hasVent = hasAir && problem.inside.springStiffness > 0.0 && drum.vent.diameter > 0.0;
    const Eigen::Index size = problem.ventIndex() + (hasVent ? 1 : 0);
    problem.airStiffness.setZero (size, size);
    problem.mass.setZero (size, size);
    problem.massSlope.setZero (problem.firstWave(), problem.firstWave());

    addBlock (problem.mass, 0, 0, problem.batterFilm + problem.outside.self);

    if (problem.hasResonant)
    {
        addBlock (problem.mass, functions, functions, problem.resonantFilm + problem.outside.self);
        addBlock (problem.mass, 0, functions, -problem.outside.cross); // outwards is downwards for the resonant head
    }

    if (hasAir)
        addCavity (problem, drum);

    return problem;
}

} // namespace modal
