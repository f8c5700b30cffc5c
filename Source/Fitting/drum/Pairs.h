#pragma once

#include "Fitting/Drum.h"

#include <vector>

namespace fitting
{

/** Two partners of one (m,n) that an even drum has at one frequency, and how far uneven lugs part them: to first order a wave of
    tension with p = 2m ups and downs round the rim does, and no other. */
struct PartedPair
{
    modal::Mode mode;
    double byBatter = 0.0;   ///< gap over frequency, over the wave's amplitude at the batter's rim, itself over the mean tension
    double byResonant = 0.0; ///< the same for the resonant head; seen at one angle the two may add up or cancel
    double gap = 0.0;        ///< Hz, heard; 0 if they are heard as one
    double error = 0.0;      ///< Hz
};

/** All pairs with m = 1 to 3 that are heard. The slopes are the eigenproblem's own, dω² = φᵀ dK φ.

    @param lines  ascending in frequency */
std::vector<PartedPair> pairsHeard (const modal::DrumSpec&, const modal::Tensions&, const std::vector<Line>& lines);

/** What pairs say of one head's lugs, fewest waves first; one for each p = 2m of which a pair that is mostly this head's is
   heard. Least squares over those that are heard as two; if none is, 0 and what the narrowest can hide as its error. */
std::vector<LugWave> lugWavesOf (const modal::DrumSpec&, modal::HeadSide, double tension, const std::vector<PartedPair>&);

} // namespace fitting
