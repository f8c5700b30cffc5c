#pragma once

#include "Head.h"
#include "Lines.h"

/** Both heads' tensions from strikes of the finished drum. */
namespace fitting
{

/** Prior knowledge of the drum. */
struct DrumFitSetup
{
    modal::DrumSpec drum;
    double massTolerance = 0.03; ///< standard deviation of each head's mass about its construction's, relative; 0 to 0.2
    double modelError = 1.5;     ///< cents, standard deviation of the model for a mode; 0.1 to 50
};

/** A measured partial and the mode assigned to it. */
struct NamedPartial
{
    double frequency = 0.0; ///< Hz, measured
    modal::Mode mode;       ///< as fitted
    double cents = 0.0;     ///< measured over fitted
};

/** The result of a fit to strikes of the whole drum. Each HeadFit has tap note, tension, mass and losses, the latter of both
   heads together, and the even waves of unevenness without their direction (lugWaves). One head alone may be impossible: then the
    strikes do not determine it. */
struct DrumFit
{
    bool isPossible = false; ///< if not, `findings` holds a refusal and nothing else counts
    HeadFit batter, resonant;
    std::vector<NamedPartial> partials{};
    double misfit = 0.0; ///< root mean square of the residues in standard deviations; near 1 or below is good
    int strikesUsed = 0;
    std::vector<Finding> findings{}; ///< about the drum; those about one head are in its fit
};

/** Least squares on the solver's coupled modes, wires off. The places of strikes and microphones need not be known, because
   frequencies and decays do not depend on them.

    @param lines    the notes that the strikes share, ascending in frequency
    @param strikes  how many there were
    @throws InputError for a setup out of range, a drum without a resonant head or one with muffling on it
*/
DrumFit fitDrum (const DrumFitSetup&, const std::vector<Line>& lines, int strikes);

} // namespace fitting
