#pragma once

#include "Head.h"

#include <vector>

namespace modal
{

/** One harmonic of an unevenly drawn head: at the rim its radial tension is cosine·cos pθ + sine·sin pθ, N/m. */
struct TensionHarmonic
{
    int p;         ///< 1 to half the number of lugs
    double cosine; ///< N/m
    double sine;   ///< N/m
};

/** Tensions of a harmonic of unit amplitude inside the head, at r/a = ρ:
    T_rr and T_θθ go with cos pθ, T_rθ with sin pθ (and with sin pθ and −cos pθ for the sine part). */
struct FieldAt
{
    double radial, hoop, shear;
};

/** The plane-stress field of a disc whose rim is moved radially as cos pθ and not sideways (Michell's solution with r^p and
   r^(p+2)): the film is drawn over the bearing edge and grips it. Scaled to unit radial tension at the rim. */
FieldAt fieldOfHarmonic (int p, double rho) noexcept;

/** Harmonics through the edge tensions beside evenly spaced lugs (deviations from their mean, N/m), up to half their number. */
std::vector<TensionHarmonic> harmonicsOf (const std::vector<double>& lugTensions);

/** Radial tension at the rim for a rim drawn outwards by `displacement`·cos pθ metres, N/m; p = 0 draws the whole head. */
double rimTension (int p, double displacement, const HeadConstruction& head, double radius) noexcept;

} // namespace modal
