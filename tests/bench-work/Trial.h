#pragma once

#include "SyntheticDrum.h"

#include "Modal/FitHead.h"

#include <string>
#include <vector>

/** One random drum, heard and fitted by someone who knows its construction but neither its tuning nor its head's exact mass. */
namespace synthetic
{

struct Outcome
{
    bool isPossible = false;
    std::string refusal{};     ///< why, if it is not possible
    double noteCents = 0.0;    ///< found over true
    double tensionShare = 0.0; ///< found over true, minus 1
    bool isAxisNamed = false;  ///< the lug that is off, or the one opposite
    bool isLugNamed = false;   ///< the lug itself
    double suspectCents = 0.0; ///< found
};

/** A random drum whose head is walked round once, to be heard at any ratio of signal to noise. */
class WalkTrial
{
public:
    /** The drum depends on `seed` alone: 12 to 15 in, 4 to 8 in deep, 6 to 10 lugs, 7 to 12 mil single ply, mass within ±3 %, a
       tap note that drums have, and one lug 20 cents up or down. @param hasPatchWalk  a second walk with a weight on the head */
    WalkTrial (unsigned seed, bool hasPatchWalk);

    /** What listening and fitting make of the walk in a room with noise. */
    Outcome at (double signalToNoise) const;

private:
    struct Recorded
    {
        Walk walk;
        listening::Recording dry;
        unsigned seed = 0;
    };

    modal::HeadFitSetup believed;
    std::vector<Recorded> walks;
    int lugOff = 0;
};

/** What six strikes of a finished drum gave. */
struct StrikesOutcome
{
    bool isPossible = false;
    std::string refusal{};    ///< why, if it is not possible
    double noteCents[2]{};    ///< found over true, batter and resonant
    double tensionShare[2]{}; ///< found over true, minus 1
    double pull[2]{};         ///< the same over the fit's own standard deviation
};

/** A random finished drum, struck six times, to be heard at any ratio of signal to noise. */
class StrikesTrial
{
public:
    /** The drum depends on `seed` alone: as in WalkTrial, with a resonant head of 2.5 to 4 mil tuned 2 semitones below to 9 above
       the batter, both heads' masses within ±3 % and one lug of each 20 cents off. Struck six times anywhere within 0.85 of the
       radius at 1 to 2 m/s, heard from above and from below in turn. */
    explicit StrikesTrial (unsigned seed, bool hasWiresOn = false);

    /** What listening and fitting make of the strikes in a room with noise. */
    StrikesOutcome at (double signalToNoise) const;

private:
    struct Recorded
    {
        listening::Recording dry;
        unsigned seed = 0;
    };

    modal::DrumSpec believed;
    modal::Tensions tensions;
    double notes[2]{}; ///< Hz, both tap notes
    std::vector<Recorded> strikes;
};

} // namespace synthetic
