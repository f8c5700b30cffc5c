#include "OrderModes.h"

#include "Losses.h"
#include "Modal/Units.h"

#include <Eigen/Cholesky>
#include <Eigen/Eigenvalues>

#include <algorithm>
#include <cmath>

namespace modal
{

namespace
{

constexpr double smallChange = 0.002;       // of modal mass: first order errs by about its square over the modes' spacing
constexpr double headShareOfAirModes = 0.1; // a mode with less of its kinetic energy in the heads is an air mode

/** Lets the loads follow each mode's own frequency: the eigenproblem was solved with the exterior and the cavity's higher waves
 * at rest. */
class FrequencyFollower
{
public:
    FrequencyFollower (const OrderProblem& orderProblem, const Eigen::MatrixXd& stiffnessMatrix, const DrumSpec& drum)
        : problem (orderProblem), stiffness (stiffnessMatrix), soundSpeed (drum.air.soundSpeed)
    {
    }

    /** How much the load on a mode changes between rest and its frequency, as a share of its mass. */
    double changeOf (const Eigen::VectorXd& shape, double omega) const { return changeAt (shape, omega).size; }

    /** First order in the change, for modes on which it is small: sets the angular frequency and scales the shape to unit modal
     * mass. */
    void nudge (Eigen::VectorXd& shape, double& omega) const
    {
        Change change = changeAt (shape, omega);
        change = changeAt (shape, omega / std::sqrt (1.0 + change.total));
        shape /= std::sqrt (1.0 + change.total);
        omega /= std::sqrt (1.0 + change.total);
    }

    /** The mode under its own load, whatever that does to its shape. `index` counts the order's modes at rest from 0 by
     * frequency. */
    void follow (Eigen::VectorXd& shape, double& omega, int index) const
    {
        if (! reshape (shape, omega, index))
            find (shape, omega, index);
    }

private:
    static constexpr double settled = 1.0e-5; // what is left after a step is a hundredth of the step

    /** What a mode's mass gains at ω, and how much that is when gains and losses do not cancel. */
    struct Change
    {
        double total, size;
    };

    Change changeAt (const Eigen::VectorXd& shape, double omega) const
    {
        const auto count = problem.functions();
        const double k = omega / soundSpeed;
        const auto heads = shape.head (problem.firstWave());
        const double inside = omega * omega * heads.dot (problem.massSlope * heads);
        const double above = problem.outsideChange.of (shape.head (count), k);
        const double below = problem.hasResonant ? problem.outsideChange.of (shape.segment (count, count), k) : 0.0;
        return { inside + above + below, std::abs (inside) + std::abs (above) + std::abs (below) };
    }

    Eigen::MatrixXd massAt (double omega) const
    {
        const auto count = problem.functions(), heads = problem.firstWave();
        const Eigen::MatrixXd change = problem.outsideChange.matrix (omega / soundSpeed);
        Eigen::MatrixXd mass = problem.mass;
        mass.topLeftCorner (heads, heads) += omega * omega * problem.massSlope;
        mass.topLeftCorner (count, count) += change;

        if (problem.hasResonant)
            mass.block (count, count, count, count) += change;

        return mass;
    }

    using Factors = Eigen::LDLT<Eigen::MatrixXd>;

    /** How many modes lie below the frequency at which K − ω²M was factorised (Sylvester's law of inertia). */
    static int countBelow (const Factors& factors) { return static_cast<int> ((factors.vectorD().array() < 0.0).count()); }

    static void improve (Eigen::VectorXd& shape, const Factors& factors, const Eigen::MatrixXd& mass)
    {
        const Eigen::VectorXd next = factors.solve (mass * shape);

        if (next.allFinite()) // otherwise the frequency is right to the last bit
            shape = next / std::sqrt (next.dot (mass * next));
    }

    /** Strongly radiating modes change their shape with the load: inverse iteration, each step at the Rayleigh quotient under the
       load at the frequency before. Returns false if it went to another mode. */
    bool reshape (Eigen::VectorXd& shape, double& omega, int index) const
    {
        auto trial = shape;
        double frequency = omega / std::sqrt (1.0 + changeAt (shape, omega).total);

        for (int step = 0; step < 8; ++step)
        {
            const Eigen::MatrixXd mass = massAt (frequency);
            const Factors factors (stiffness - frequency * frequency * mass);
            improve (trial, factors, mass);

            const double before = frequency;
            frequency = std::sqrt (trial.dot (stiffness * trial));

            if (std::abs (frequency - before) < settled * frequency)
            {
                // At the mode's own frequency rounding decides whether it counts itself.
                const int below = countBelow (factors);

                if (below != index && below != index + 1)
                    return false;

                shape = trial;
                omega = frequency;
                return true;
            }
        }

        return false;
    }

    /** The frequency up to which K − ω²M(ω) counts `index` modes, by bisection; slower, and sure to be that mode. */
    void find (Eigen::VectorXd& shape, double& omega, int index) const
    {
        double low = 0.7 * omega, high = 1.4 * omega;

        while (high - low > settled * high)
        {
            const double middle = 0.5 * (low + high);
            (countBelow (Factors (stiffness - middle * middle * massAt (middle))) > index ? high : low) = middle;
        }

        omega = 0.5 * (low + high);
        const Eigen::MatrixXd mass = massAt (omega);
        const Factors factors (stiffness - omega * omega * mass);

        for (int step = 0; step < 3; ++step)
            improve (shape, factors, mass);
    }

    const OrderProblem& problem;
    const Eigen::MatrixXd& stiffness;
    double soundSpeed;
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

/** ω of a mode whose radiation resistance rises with frequency: analytic continuation of the load to the complex frequency lowers
   it in second order, ω² − 2α d(ωα)/dω + 2α² (for a resistance that does not change, ω² of q'' + 2αq' + ω²q stays as it is). */
double loweredByRadiation (const OrderProblem& problem, const Eigen::VectorXd& shape, double omega, double rate,
                           const DrumSpec& drum, const Tensions& tensions)
{
    constexpr double faintest = 0.003; // of ω: below this rate the effect is less than a tenth of a cent
    constexpr double furthest =
        0.08; // of ω²: a mode that would go further is hardly a mode, and second order no longer describes it

    if (rate < faintest * omega)
        return omega;

    constexpr double step = 1.02;
    const double further = decayOf (problem, shape, step * omega, drum, tensions).radiation;
    const double slope = (step * further - rate) / (step - 1.0);
    const double change = (2.0 * rate * rate - 2.0 * rate * slope) / (omega * omega);
    return omega * std::sqrt (1.0 + std::clamp (change, -furthest, furthest));
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
    mode.decay = decayOf (problem, shape, omega, drum, tensions);
    mode.frequency = loweredByRadiation (problem, shape, omega, mode.decay.radiation, drum, tensions) / units::twoPi;
    mode.shares = sharesOf (problem, shape);
    mode.headCorrelation = 2.0 * found.batter.dot (found.resonant) / (batterMotion + resonantMotion);
    mode.isAirMode = mode.shares.batter + mode.shares.resonant < headShareOfAirModes;
    return found;
}

} // namespace

std::vector<OrderMode> modesOfOrder (const OrderProblem& problem, const DrumSpec& drum, const Tensions& tensions,
                                     double highestFrequency, int most)
{
    const Eigen::MatrixXd stiffness = problem.stiffness (tensions);
    const Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd> solver (stiffness, problem.mass);
    const auto& rest = solver.eigenvalues();
    const double ceiling = 1.3 * units::twoPi * highestFrequency; // following its frequency may lower or raise a mode a little
    const auto count =
        static_cast<int> (std::count_if (rest.begin(), rest.end(), [=] (double squared) { return squared < ceiling * ceiling; }));
    const FrequencyFollower follower (problem, stiffness, drum);
    const auto omegaAtRest = [&] (int i) { return std::sqrt (std::max (0.0, rest[i])); };
    std::vector<double> changes; // of the loads on the modes at rest, as far as needed yet
    std::vector<OrderMode> found;

    for (int i = 0, moving = 0; i < count && moving < most; ++i)
    {
        Eigen::VectorXd shape = solver.eigenvectors().col (i);
        double omega = omegaAtRest (i);

        // A load that changes much on a mode also mixes its neighbours into it, however little it changes on them.
        constexpr int reach = 2;

        for (int next = static_cast<int> (changes.size()); next < std::min (count, i + reach + 1); ++next)
            changes.push_back (follower.changeOf (solver.eigenvectors().col (next), omegaAtRest (next)));

        const double nearby = *std::max_element (changes.begin() + std::max (0, i - reach), changes.end());

        if (nearby > smallChange)
            follower.follow (shape, omega, i);
        else if (nearby > 0.0)
            follower.nudge (shape, omega);

        auto mode = describe (problem, shape, omega, drum, tensions);
        moving += mode.mode.isAirMode ? 0 : 1;

        if (mode.mode.frequency <= highestFrequency)
            found.push_back (std::move (mode));
    }

    return found;
}

} // namespace modal
