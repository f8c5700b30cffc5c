#pragma once

#include <Eigen/Core>
#include <vector>

namespace reference
{

/** Air around a drum at frequencies low enough for it to be incompressible, by finite volumes in (r, z) for one order m.

    Lengths are in radii of the head. A head moves with the radial profiles J_m(j_mn r), not normalised; entry (n, n') of a result
   is ∫ φ_n' J_m(j_mn r) r dr with φ_n' the potential over the head that moves with profile n' (velocity positive away from the
   drum). Times ρa³·(2π or π) that is added mass. The far field closes with the decay r^-(m+1) of the lowest multipole.
*/
struct ExteriorLaplace
{
    int m;              ///< nodal diameters
    int functions;      ///< radial profiles n = 1 to functions
    int cellsPerRadius; ///< cell count along a radius near the head; the error falls with it

    /** One head in an infinite rigid wall. */
    Eigen::MatrixXd baffled() const;

    struct TwoHeads
    {
        Eigen::MatrixXd self;  ///< a head's own potential
        Eigen::MatrixXd cross; ///< the other head's potential, both velocities positive away from the drum
    };

    /** A rigid cylinder of `length` radii in free space with a head on either end. */
    TwoHeads freeStanding (double length) const;

    /** How far beyond the ends of the same cylinder two equal sources of opposite sign would have to stand, one on either side,
       to sound far away as both heads moving in the same direction with the first profile, in radii. m = 0: sources of volume; m
       = 1: dipoles across the axis. */
    double farCentreOffset (double length) const;
};

} // namespace reference
