#pragma once

#include "OrderProblem.h"

namespace modal
{

/** Loss constants. None of these is published for drums as such; radiation is not among them, it is computed.

    What recorded drums with their wires off say: a 14-inch snare's mode at 731 Hz rings for 1 s, and none can ring longer than
   the film lets it, so that the film's loss factor is at most 0.003; a 12-inch drum rings for 2.0 to 2.7 s at its lowest mode and
   2 s at (1,1), which with the computed radiation leaves 0.003 for the film and half of what used to be taken for the edge;
   octaves of a snare without wires fade in 0.31 s (1 to 2 kHz) and 0.24 s (2 to 4 kHz), which a coated head of 0.0035 comes near
   to (0.31 and 0.15 s), but in 0.1 s above 4 kHz, where a film bends as a plate does and its material's own loss counts.

    Drums spread by a factor of two either way. The same snare's (1,1) rings for 0.25 to 0.5 s where this gives 1.4 s: shell and
   hoops of 3 kg on a stand that takes all it can take no more than 4/s from that mode (a mode of modal mass m that pushes a body
   of mass M with a matched resistance loses ωm/4M), which would leave 0.8 s; the rest may be muffling, or a gliding mode read as
   several. */
struct LossConstants
{
    static constexpr double film = 0.003;         ///< loss factor of stretched PET film
    static constexpr double coating = 0.02;       ///< added to it for each kg/m² of coating; common practice, no source
    static constexpr double bending = 0.005;      ///< loss factor of PET when it is bent; handbooks' 0.01 to 0.02 (from memory) fade too fast above 4 kHz
    static constexpr double glue = 0.02;          ///< of what a dot or ring moves; common practice, no source
    static constexpr double ply = 0.006;          ///< added for a second ply that rubs on the first; common practice, no source
    static constexpr double edgeOfShell = 3.0e-5; ///< conductance of a bearing edge, m²/(N s), for a shell without loss
    static constexpr double edgeOfMaterial = 2.0e-3; ///< and its rise with the shell material's loss factor
};

/** How one mode of one order decays, by cause.

    @param shape   the mode in the coordinates of `problem`, of unit modal mass
    @param omega   its angular frequency, rad/s
*/
Decay decayOf (const OrderProblem& problem, const Eigen::VectorXd& shape, double omega, const DrumSpec&, const Tensions&);

} // namespace modal
