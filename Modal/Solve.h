#pragma once

#include "DrumModes.h"

namespace modal
{

/** Tension of each head, N/m. `resonant` is ignored without a resonant head. */
struct Tensions
{
    double batter = 0.0;
    double resonant = 0.0;
};

/** How far and how finely to solve. */
struct SolveOptions
{
    double highestFrequency =
        2000.0;             ///< Hz; modes above are left out. 50 to 20 000; see solve() for what a slack, wide head allows
    int extraFunctions = 6; ///< radial functions a head beyond those whose own frequency lies in the band
};

/** All modes of an evenly tuned drum up to a frequency.

    One generalized symmetric eigenproblem per order m: both heads on their Bessel basis, exterior air as mass, cavity modes up to
    three times the band as degrees of freedom and the rest of the cavity as mass, the vent as a plug of air. The frequency
   dependence of the exterior load and all losses follow to first order in each mode. Orders end at 60: where a head's modes of
   that order lie below the frequency asked for, DrumModes::highestFrequency says how far the result is complete.

    @throws InputError for a drum or tensions that cannot be
*/
DrumModes solve (const DrumSpec&, const Tensions&, const SolveOptions& = {});

} // namespace modal
