#include "OrderModes.h"

#include "Losses.h"
#include "Units.h"

#include <Eigen/Eigenvalues>

#include <algorithm>
#include <cmath>

namespace modal
{

namespace
{

constexpr double filmShareOfAirModes = 0.1; // below this share of the kinetic energy in the films a mode is the air's

/** Lets the exterior load follow each mode's own frequency. */
class FrequencyFollower
{
public:
    FrequencyFollower (const OrderProblem& orderProblem, const DrumSpec& drum)
        : problem (orderProblem), soundSpeed (drum.air.soundSpeed), change (problem.m, problem.zeros, problem.outside.rim, drum)
    {
    }

    /** Returns the corrected ω of a mode and scales its shape back to unit modal mass. */
    double operator() (Eigen::VectorXd& shape, double omega) const
    {
        double mass = 1.0;

        // The load changes slowly with frequency: the second pass moves the result by less than a tenth of what the first did.
        for (int pass = 0; pass < 2; ++pass)
            mass = 1.0 + changeAt (shape, omega / std::sqrt (mass) / soundSpeed);

        shape /= std::sqrt (mass);
        return omega / std::sqrt (mass);
    }

private:
    double changeAt (const Eigen::VectorXd& shape, double k) const
    {
        const auto count = problem.functions();
        const double batter = change (shape.head (count), k);
        return problem.hasResonant ? batter + change (shape.segment (count, count), k) : batter;
    }

    const OrderProblem& problem;
    double soundSpeed;
    exterior::MassChange change;
};

Shares sharesOf (const OrderProblem& problem, const Eigen::VectorXd& shape)
{
    const auto count = problem.functions();
    const Eigen::VectorXd batter = shape.head (count);
    Shares shares;
    shares.batter = batter.dot (problem.batterFilm * batter);

    if (problem.hasResonant)
    {
        const Eigen::VectorXd resonant = shape.segment (count, count);
        shares.resonant = resonant.dot (problem.resonantFilm * resonant);
    }

    shares.air = std::max (0.0, 1.0 - shares.batter - shares.resonant);
    return shares;
}

OrderMode describe (const OrderProblem& problem, const Eigen::VectorXd& shape, double omega, const DrumSpec& drum,
                    const Tensions& tensions)
{
    const auto count = problem.functions();

    OrderMode found;
    found.batter = shape.head (count);
    found.resonant = problem.hasResonant ? Eigen::VectorXd (shape.segment (count, count)) : Eigen::VectorXd::Zero (count);

    const double batterMotion = found.batter.squaredNorm(), resonantMotion = found.resonant.squaredNorm();
    Eigen::Index strongest = 0;
    (batterMotion >= resonantMotion ? found.batter : found.resonant).cwiseAbs().maxCoeff (&strongest);

    auto& mode = found.mode;
    mode.m = problem.m;
    mode.n = static_cast<int> (strongest) + 1;
    mode.frequency = omega / units::twoPi;
    mode.decay = decayOf (problem, shape, omega, drum, tensions);
    mode.shares = sharesOf (problem, shape);
    mode.togetherness = 2.0 * found.batter.dot (found.resonant) / (batterMotion + resonantMotion);
    mode.isAirMode = mode.shares.batter + mode.shares.resonant < filmShareOfAirModes;
    return found;
}

} // namespace

std::vector<OrderMode> modesOfOrder (const OrderProblem& problem, const DrumSpec& drum, const Tensions& tensions,
                                     double highestFrequency)
{
    const Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd> solver (problem.stiffness, problem.mass);
    const FrequencyFollower follow (problem, drum);
    std::vector<OrderMode> found;

    for (Eigen::Index i = 0; i < solver.eigenvalues().size(); ++i)
    {
        double omega = std::sqrt (std::max (0.0, solver.eigenvalues()[i]));

        if (omega > 1.3 * units::twoPi * highestFrequency) // following the frequency may lower or raise a mode a little
            break;

        Eigen::VectorXd shape = solver.eigenvectors().col (i);
        omega = follow (shape, omega);
        auto mode = describe (problem, shape, omega, drum, tensions);

        if (mode.mode.frequency <= highestFrequency)
            found.push_back (std::move (mode));
    }

    return found;
}

} // namespace modal
