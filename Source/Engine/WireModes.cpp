#include "WireModes.h"

#include "Modal/Units.h"

#include <Eigen/Eigenvalues>

#include <cmath>
#include <numbers>

namespace engine
{
namespace
{

/** Straps as wide as the plate, or two cords 0.58 of its length apart: mean square of their distance from its middle over that of
    its ends. Common practice, no source. */
constexpr double strapSpread = 1.0 / 3.0;

/** Motion in coordinates: first the strands' own, pair by pair, then the plates'. Both strands of a pair move alike, or in
   opposite directions, and so do both plates. */
class WireMotion
{
public:
    WireMotion (const StrandGeometry& geometry, const modal::WireSpec& wires, WireParity symmetry)
        : strands (geometry), spec (wires), parity (symmetry)
    {
        for (int n = parity.isOddInX ? 2 : 1; n <= strands.modeCount(); n += 2)
            numbers.push_back (n);
        strandSide = strands.pairs() * static_cast<int> (numbers.size());
        strapSide = parity.isOddInY ? strandSide : strandSide + 1; // tilting, both long sides of a plate move alike
        mass = stiffness = Eigen::MatrixXd::Zero (strapSide + 1, strapSide + 1);
        decay = Eigen::VectorXd::Zero (strapSide + 1);
        addStrands();
        addPlates();
    }

    WireMode mode (const Eigen::VectorXd& motion, double omegaSquared) const
    {
        const double omega = std::sqrt (omegaSquared);
        WireMode result;
        result.frequency = omega / modal::units::twoPi;
        result.decay = motion.cwiseAbs2().dot (decay) +
                       0.5 * spec.strapLoss * strapStiffness * motion[strapSide] * motion[strapSide] / omega;
        result.shape.resize (strands.halfPoints() * strands.pairs());
        for (int point = 0; point < strands.halfPoints(); ++point)
            for (int pair = 0; pair < strands.pairs(); ++pair)
            {
                double moved = carried (point) * lift (pair) * motion[strandSide];
                for (std::size_t i = 0; i < numbers.size(); ++i)
                    moved += ofPair * strands.shape (numbers[i], point) * motion[own (pair, i)];
                result.shape[point * strands.pairs() + pair] = moved;
            }
        return result;
    }

    Eigen::MatrixXd mass, stiffness;

private:
    /** Coordinate of one of a pair's own modes, of unit mass for both strands together. */
    Eigen::Index own (int pair, std::size_t i) const
    {
        return pair * static_cast<Eigen::Index> (numbers.size()) + static_cast<Eigen::Index> (i);
    }

    /** How far the plates lift a pair's ends for each metre of their own coordinate: the height of a long side, or of its end. */
    double lift (int pair) const { return parity.isOddInY ? 2.0 * strands.strandY (pair) / spec.bedWidth : 1.0; }

    /** Motion of a point on a strand whose ends move by one. */
    double carried (int point) const { return parity.isOddInX ? 2.0 * strands.pointX (point) / strands.span() : 1.0; }

    void addStrands()
    {
        for (int pair = 0; pair < strands.pairs(); ++pair)
        {
            const double ends = lift (pair);
            for (std::size_t i = 0; i < numbers.size(); ++i)
            {
                const int n = numbers[i];
                const double omega = modal::units::twoPi * strands.frequency (n, pair);
                const auto at = own (pair, i);
                mass (at, at) = 1.0;
                stiffness (at, at) = omega * omega;
                decay[at] = strands.decay (n, pair);
                // Integral of a strand's sine times the straight line between its ends.
                const double shared = (parity.isOddInX ? -2.0 : 2.0) / (n * modal::units::pi);
                mass (at, strandSide) = mass (strandSide, at) = 2.0 * ofPair * std::sqrt (2.0 * strands.mass()) * shared * ends;
            }
            mass (strandSide, strandSide) += 2.0 * strands.mass() * (parity.isOddInX ? 1.0 / 3.0 : 1.0) * ends * ends;
            if (parity.isOddInX)
                stiffness (strandSide, strandSide) += 2.0 * strands.pull (pair) * 4.0 / strands.span() * ends * ends;
        }
    }

    void addPlates()
    {
        double pull = 0.0;
        for (int pair = 0; pair < strands.pairs(); ++pair)
            pull += 2.0 * strands.pull (pair);

        // Two plates, each of which is a thin bar about either axis.
        const double third = 2.0 * spec.plateMass / 3.0;
        strapStiffness = 2.0 * pull / spec.strapLength * (parity.isOddInY ? strapSpread : 1.0);
        stiffness (strapSide, strapSide) += strapStiffness;
        mass (strandSide, strandSide) += third;
        if (parity.isOddInY)
            return;
        mass (strapSide, strapSide) += third;
        mass (strandSide, strapSide) = mass (strapSide, strandSide) = 0.5 * third;
        const double upright = 2.0 * pull / spec.plateWidth; // the pull through the plate rights it
        stiffness (strandSide, strandSide) += upright;
        stiffness (strapSide, strapSide) += upright;
        stiffness (strandSide, strapSide) = stiffness (strapSide, strandSide) = -upright;
    }

    static constexpr double ofPair = 0.5 * std::numbers::sqrt2; ///< a strand's motion for its pair's coordinate

    const StrandGeometry& strands;
    const modal::WireSpec& spec;
    const WireParity parity;
    std::vector<int> numbers;                   ///< of the strands' modes
    Eigen::Index strandSide = 0, strapSide = 0; ///< coordinates: heights of a plate's long sides, m
    Eigen::VectorXd decay;
    double strapStiffness = 0.0; ///< N/m, both ends
};

} // namespace

std::vector<WireMode> solveWireModes (const StrandGeometry& strands, const modal::WireSpec& wires, WireParity parity)
{
    const WireMotion motion (strands, wires, parity);
    const Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd> solved (motion.stiffness, motion.mass);
    std::vector<WireMode> modes;
    for (Eigen::Index k = 0; k < solved.eigenvalues().size(); ++k)
        modes.push_back (motion.mode (solved.eigenvectors().col (k), solved.eigenvalues()[k]));
    return modes;
}

} // namespace engine
