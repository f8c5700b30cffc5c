#include "OrderModes.h"

#include "Losses.h"
#include "Units.h"

#include <Eigen/Eigenvalues>
#include <Eigen/LU>

#include <algorithm>
#include <cmath>

namespace modal
{

namespace
{

constexpr double filmShareOfAirModes = 0.1; // below this share of the kinetic energy in the films a mode is the air's

/** Lets the loads follow each mode's own frequency: the eigenproblem was solved with the exterior and the cavity's higher waves
 * at rest. */
class FrequencyFollower
{
public:
    FrequencyFollower (const OrderProblem& orderProblem, const DrumSpec& drum)
        : problem (orderProblem), soundSpeed (drum.air.soundSpeed), change (problem.m, problem.zeros, problem.outside.rim, drum)
    {
    }

    /** Corrects a mode: its angular frequency and its shape, which comes back with unit modal mass. `others` are the shapes of
       the modes already corrected. */
    void follow (Eigen::VectorXd& shape, double& omega, const std::vector<Eigen::VectorXd>& others) const
    {
        if (std::abs (changeAt (shape, omega)) > smallChange)
        {
            auto reshaped = shape;
            auto reshapedOmega = omega;
            reshape (reshaped, reshapedOmega);

            if (isNew (reshaped, others))
            {
                shape = reshaped;
                omega = reshapedOmega;
                return;
            }
        }

        // First order: the load changes slowly with frequency, the second pass moves the result by less than a tenth of what the
        // first did.
        double mass = 1.0;

        for (int pass = 0; pass < 2; ++pass)
            mass = 1.0 + changeAt (shape, omega / std::sqrt (mass));

        shape /= std::sqrt (mass);
        omega /= std::sqrt (mass);
    }

private:
    // Of modal mass; first order errs by about its square over the modes' spacing.
    static constexpr double smallChange = 0.004;
    // Overlap at which two modes are one.
    static constexpr double sameShape = 0.9;

    /** Two strongly radiating neighbours may iterate to the same mode. */
    bool isNew (const Eigen::VectorXd& shape, const std::vector<Eigen::VectorXd>& others) const
    {
        const Eigen::VectorXd momentum = problem.mass * shape;
        return std::none_of (others.begin(), others.end(),
                             [&] (const Eigen::VectorXd& other) { return std::abs (other.dot (momentum)) > sameShape; });
    }

    double changeAt (const Eigen::VectorXd& shape, double omega) const
    {
        const auto count = problem.functions(), heads = problem.firstWave();
        const double k = omega / soundSpeed;
        double sum =
            change.of (shape.head (count), k) + omega * omega * shape.head (heads).dot (problem.massSlope * shape.head (heads));

        if (problem.hasResonant)
            sum += change.of (shape.segment (count, count), k);

        return sum;
    }

    Eigen::MatrixXd massAt (double omega) const
    {
        const auto count = problem.functions(), heads = problem.firstWave();
        const Eigen::MatrixXd outside = change.matrix (omega / soundSpeed);
        Eigen::MatrixXd mass = problem.mass;
        mass.topLeftCorner (heads, heads) += omega * omega * problem.massSlope;
        mass.topLeftCorner (count, count) += outside;

        if (problem.hasResonant)
            mass.block (count, count, count, count) += outside;

        return mass;
    }

    /** Strongly radiating modes change their shape with the load: Rayleigh quotient iteration from the mode at rest. The load is
       brought in by halves so that the iteration stays with its mode. */
    void reshape (Eigen::VectorXd& shape, double& omega) const
    {
        for (const double part : { 0.5, 1.0, 1.0 })
        {
            const Eigen::MatrixXd mass = problem.mass + part * (massAt (omega) - problem.mass);
            const double quotient = shape.dot (problem.stiffness * shape) / shape.dot (mass * shape);
            const Eigen::VectorXd next = (problem.stiffness - quotient * mass).partialPivLu().solve (mass * shape);

            if (! next.allFinite())
                break; // the quotient is exact

            shape = next / std::sqrt (next.dot (mass * next));
            omega = std::sqrt (shape.dot (problem.stiffness * shape));
        }
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
    const FrequencyFollower follower (problem, drum);
    std::vector<OrderMode> found;
    std::vector<Eigen::VectorXd> shapes;

    for (Eigen::Index i = 0; i < solver.eigenvalues().size(); ++i)
    {
        double omega = std::sqrt (std::max (0.0, solver.eigenvalues()[i]));

        if (omega > 1.3 * units::twoPi * highestFrequency) // following the frequency may lower or raise a mode a little
            break;

        Eigen::VectorXd shape = solver.eigenvectors().col (i);

        if (! drum.air.isVacuum())
            follower.follow (shape, omega, shapes);

        shapes.push_back (shape);

        auto mode = describe (problem, shape, omega, drum, tensions);

        if (mode.mode.frequency <= highestFrequency)
            found.push_back (std::move (mode));
    }

    return found;
}

} // namespace modal
