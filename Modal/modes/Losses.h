#pragma once

#include "OrderProblem.h"

namespace modal
{

/** Loss constants. None of these is published for drums as such: they are set so that a drum of ordinary make, unmuffled and
   without its wires, rings about as long as drums do (common practice, no source). Radiation is not among them: it is computed.
 */
struct LossConstants
{
    static constexpr double film = 0.004;            ///< loss factor of stretched PET film
    static constexpr double coating = 0.06;          ///< added to it for each kg/m² of coating
    static constexpr double glue = 0.02;             ///< of what a dot or ring moves
    static constexpr double ply = 0.006;             ///< added for a second ply that rubs on the first
    static constexpr double edgeOfShell = 5.0e-5;    ///< conductance of a bearing edge, m²/(N s), for a shell without loss
    static constexpr double edgeOfMaterial = 3.0e-3; ///< and its rise with the shell material's loss factor
};

/** How one mode of one order decays, by cause.

    @param shape   the mode in the coordinates of `problem`, of unit modal mass
    @param omega   its angular frequency, rad/s
*/
Decay decayOf (const OrderProblem& problem, const Eigen::VectorXd& shape, double omega, const DrumSpec&, const Tensions&);

} // namespace modal
