#pragma once

#include "Head.h"
#include "Lines.h"

/** From strikes of the finished drum to both heads' tensions. */
namespace fitting
{

/** What is known before listening, and how well. */
struct DrumFitSetup
{
    modal::DrumSpec drum;
    double massTolerance = 0.03; ///< standard deviation of each head's mass about its construction's, relative; 0 to 0.2
    double modelError = 1.5;     ///< cents, by which the model may miss a mode; 0.1 to 50
};

/** A partial that was heard and the mode that it is taken for. */
struct NamedPartial
{
    double frequency = 0.0; ///< Hz, heard
    modal::Mode mode;              ///< as fitted
    double cents = 0.0;     ///< heard over fitted
};

/** What strikes of the whole drum say. In each HeadFit tap note, tension, mass and losses count; losses are those of both heads
    together. Of the lugs there is what goes up and down an even number of times round a head, without its direction (lugWaves).
    The resonant head may come out as not possible while the batter does: then the strikes tell nothing of it. */
struct DrumFit
{
    bool isPossible = false; ///< if not, `findings` holds a refusal and nothing else counts
    HeadFit batter, resonant;
    std::vector<NamedPartial> partials{};
    double misfit = 0.0; ///< root mean square of what is left over, in standard deviations; near 1 or below is good
    int strikesUsed = 0;
    std::vector<Finding> findings{}; ///< about the drum; those about one head are in its fit
};

/** Least squares on the solver's coupled modes, both heads ringing over the air between them, wires off. Where the drum was
   struck and where the microphone was need not be known: frequencies and decays do not depend on it.

    @param lines    the notes that the strikes have in common, ascending in frequency
    @param strikes  how many there were
    @throws InputError for a setup out of range, a drum without a resonant head or one with muffling on it
*/
DrumFit fitDrum (const DrumFitSetup&, const std::vector<Line>& lines, int strikes);

} // namespace fitting
