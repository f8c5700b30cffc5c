#pragma once

#include "DrumModes.h"

#include <memory>
#include <vector>

namespace modal
{

/** Tension of the heads. */
struct Tensions
{
    double batter = 0.0;   ///< mean tension, N/m
    double resonant = 0.0; ///< mean tension, N/m; ignored without a resonant head

    /** For each lug, the radial tension at the edge beside it over the mean, minus 1. Empty: even. -0.9 to 2, if the head stays
     * taut. */
    std::vector<double> batterLugs{}, resonantLugs{};
};

/** How far and how finely to solve. */
struct SolveOptions
{
    double highestFrequency =
        2000.0;             ///< Hz; modes above are left out. 50 to 20 000; see solve() for what a slack, wide head allows
    int extraFunctions = 5; ///< radial functions a head beyond those whose own frequency lies in the band
};

/** All modes of a drum up to a frequency.

    Evenly tuned and unmuffled, each order m is one generalized symmetric eigenproblem: both heads on their Bessel basis, exterior
   air as mass, cavity modes up to three times the band as degrees of freedom and the rest of the cavity as mass, the vent as a
   plug of air. The frequency dependence of the exterior load and all losses follow to first order in each mode. Uneven lugs and
   muffling then couple these modes in a second symmetric eigenproblem (Rayleigh–Ritz on the even drum's modes).

    Orders end at 60: where a head's modes of that order lie below the frequency asked for, DrumModes::highestFrequency gives how
   far the result is complete.

    @throws InputError for a drum or tensions out of range
*/
DrumModes solve (const DrumSpec&, const Tensions&, const SolveOptions& = {});

/** Solves many tunings of one drum. What does not depend on the tensions (air loads, cavity, masses) is computed once and kept;
   each solution is the same, to the last bit, as that of solve(). May be used from several threads; copies share what is kept. */
class DrumSolver
{
public:
    /** @throws InputError for a drum or options out of range */
    explicit DrumSolver (const DrumSpec&, const SolveOptions& = {});

    /** See solve(). */
    DrumModes solve (const Tensions&) const;

    /** Frequency in Hz of the drum note: the lowest mode in which the heads move, 0 if there is none in the band. On an even drum
        without muffling only the orders that it can belong to are solved. */
    double drumNote (const Tensions&) const;

    const DrumSpec& drum() const noexcept { return spec; }
    const SolveOptions& options() const noexcept { return limits; }

private:
    class Orders;

    DrumSpec spec;
    SolveOptions limits;
    std::shared_ptr<Orders> orders;
};

} // namespace modal
