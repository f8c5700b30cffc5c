#pragma once

#include "OrderProblem.h"

namespace modal
{

/** Loss constants. None of these is published for drums as such; radiation is not among them, it is computed.

    What recorded drums with their wires off say: a 14-inch snare has a mode at 731 Hz that rings for 1 s, and none can ring
   longer than the film lets it, so that the film's loss factor is at most 0.003. A 12-inch drum rings for 2.0 to 2.7 s at its
   lowest mode and 2 s at (1,1): 2.0 and 2.3 s here. Octaves of a snare without wires fade in 0.31 s (1 to 2 kHz) and 0.24 s (2 to
   4 kHz), which a coated head of 0.0035 comes near to (0.18 to 0.31 and 0.15 s), but in 0.1 s above 4 kHz, where a film bends as
   a plate does and its material's own loss counts.

    The same snare's lowest partial, 243 Hz coming to rest at 232, rings for 0.25 to 0.5 s. That is (0,1): a (1,1) there would
   have a (0,1) near 135 Hz below it that rings for more than a second, and there is none. A drum tuned so that (0,1) is at 235 Hz
   has 0.30 s. Its modes next to the other partials (not known which belongs to which): (1,1) at 437 Hz 0.20 s and (2,1) at 489 Hz
   0.65 s (423 and 431 Hz: 0.6 and 0.4 s), (4,1) at 761 Hz 0.64 s (731 Hz: 1 s), at 891 and 911 Hz 0.57 and 0.17 s (921 to 927 Hz:
   0.4 to 0.5 s). So a mode's decay is known within a factor of two to three either way, with no loss that is plainly missing.

    Left out, since it is small: shell and hoops of 3 kg on a stand that took all it can would take 4/s from (1,1) (a mode of
   modal mass m that pushes a body of mass M with a matched resistance loses ωm/4M), but three arms in rubber sleeves (7e5 N/m in
   all, loss factor 0.15, both from memory) are far from matched at 240 Hz: they take 0.1/s.
*/
struct LossConstants
{
    static constexpr double film = 0.003;   ///< loss factor of stretched PET film
    static constexpr double coating = 0.02; ///< added to it for each kg/m² of coating; common practice, no source
    static constexpr double bending =
        0.005; ///< loss factor of PET when it is bent; handbooks' 0.01 to 0.02 (from memory) fade too fast above 4 kHz
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
