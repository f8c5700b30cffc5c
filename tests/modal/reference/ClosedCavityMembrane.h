#pragma once

#include <vector>

namespace reference
{

/** Membrane of radius a and tension T over a closed volume V whose air only springs.

    The air adds the same pressure −(ρc²/V)·∫w dA everywhere, so w = A (J₀(kr) − J₀(ka)); putting that into
    T∇²w + σω²w = (ρc²/V)∫w dA and using J₀ + J₂ = 2J₁/x gives, with x = ka,

        J₀(x) = −B J₂(x)/x²,   B = ρc² π a⁴/(V T),

    which is the equation of Kinsler & Frey and of Raichel.
    @returns the first `count` roots x
*/
std::vector<double> closedCavityRoots (double b, int count);

/** How far x is from satisfying that equation. */
double closedCavityResidual (double b, double x);

} // namespace reference
