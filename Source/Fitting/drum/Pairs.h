#pragma once

#include "Fitting/Drum.h"

#include <vector>

namespace fitting
{

/** The two partners of a mode (m,n), which coincide on an even drum, and their split by uneven lugs: to first order only the
    harmonic p = 2m of the tension around the rim splits them. */
struct PartedPair
{
    modal::Mode mode;
    double byBatter = 0.0;   ///< relative split per relative amplitude of the harmonic at the batter's rim
    double byResonant = 0.0; ///< the same for the resonant head; the two may add up or cancel
    double gap = 0.0;        ///< Hz, measured; 0 if not resolved
    double error = 0.0;      ///< Hz
};

/** All measured pairs with m = 1 to 3. Slopes come from the eigenproblem, dω² = φᵀ dK φ.

    @param lines  ascending in frequency */
std::vector<PartedPair> pairsHeard (const modal::DrumSpec&, const modal::Tensions&, const std::vector<Line>& lines);

/** Harmonics of one head's unevenness, lowest first; one for each p = 2m with a measured pair that belongs mostly to this head.
   Least squares over the resolved pairs; if none is resolved, 0 with the smallest upper limit as its error. */
std::vector<LugWave> lugWavesOf (const modal::DrumSpec&, modal::HeadSide, double tension, const std::vector<PartedPair>&);

} // namespace fitting
