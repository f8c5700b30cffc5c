#pragma once

#include "Head.h"

#include <vector>

namespace modal
{

/** One harmonic p of an uneven plane-stress field in a disc, by the two parts of its Airy function that are regular in the centre
    (Michell's solution), at r/a = ρ:

        inner (r^p):      T_rr = ρ^(p−2) cos pθ,            T_θθ = −ρ^(p−2) cos pθ,          T_rθ = −ρ^(p−2) sin pθ
        outer (r^(p+2)):  T_rr = (2−p)(1+p) ρ^p cos pθ,     T_θθ = (2+p)(1+p) ρ^p cos pθ,    T_rθ = p(p+1) ρ^p sin pθ

    each times its amplitude in N/m; the sine amplitudes belong to the same field turned by a quarter of its wave. There is no
   inner part with p = 1. The inner part of p = 2 alone is a head with more tension along x than along y, the same everywhere.
*/
struct TensionHarmonic
{
    struct Amplitude
    {
        double cosine = 0.0;
        double sine = 0.0;
    };

    int p = 1;
    Amplitude inner{}, outer{};
};

/** The field of a head whose lugs pull unequally: the head is pulled over the bearing edge as cos pθ, sin pθ and grips it, so
   that the rim does not move sideways.

    @param lugTensions  radial tension at the edge beside each of the evenly spaced lugs, N/m, lug 1 at θ = 0; their mean is left
   out
    @return harmonics 1 to half the number of lugs
*/
std::vector<TensionHarmonic> harmonicsOf (const std::vector<double>& lugTensions);

/** Radial tension at a gripping rim that is pulled outwards by `displacement`·cos pθ metres, N/m; p = 0 tensions the whole head.
 */
double rimTension (int p, double displacement, const HeadConstruction& head, double radius) noexcept;

} // namespace modal
