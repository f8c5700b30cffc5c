#pragma once

#include "SyntheticDrum.h"

#include "Fitting/Drum.h"
#include "Fitting/Head.h"

#include <cmath>
#include <string>
#include <vector>

/** One random drum, heard and fitted by someone who knows its construction but neither its tuning nor its head's exact mass. */
namespace synthetic
{

/** How a drum, its room and the recorder are. */
enum class Played
{
    asModel, ///< modes where the solver has them; a room with a tenth of the energy
    asReal   ///< modes and decays off the model's as those of recorded drums are, hard strikes that glide, rooms of 0.2 to 0.6 s
             ///< with 5 to 20 % of the energy, every other drum through a telephone
};

/** How many of several stated values lie within 1.96 of their errors from the truth, or in their 95 % range. */
struct Calibration
{
    int told = 0, within = 0;

    void count (bool isWithin) noexcept
    {
        ++told;
        within += isWithin ? 1 : 0;
    }

    void add (const Calibration& other) noexcept
    {
        told += other.told;
        within += other.within;
    }

    double share() const noexcept { return static_cast<double> (within) / told; }
};

struct Outcome
{
    bool isPossible = false;
    bool isWarned = false;     ///< possible, but said to be doubtful
    std::string refusal{};     ///< why, if it is not possible; the warning, if it is warned of
    double noteCents = 0.0;    ///< found over true
    double tensionShare = 0.0; ///< found over true, minus 1
    bool isAxisNamed = false;  ///< the lug that is off, or the one opposite
    bool isLugNamed = false;   ///< the lug itself
    double suspectCents = 0.0; ///< found
    Calibration note{}, tension{}, lugs{};
};

/** What is not as the person believes it to be. */
enum class Mistake
{
    none,
    otherHeadRings, ///< it is not held still; its tap note is 2 semitones below to 9 above the other's
    openBelow,      ///< there is no other head
    inchMore        ///< the drum is said to be an inch wider than it is
};

/** A random drum whose lugs are tapped once, to be heard at any ratio of signal to noise. */
class LugCheckTrial
{
public:
    /** The drum depends on `seed` alone: 12 to 15 in, 4 to 8 in deep, 6 to 10 lugs, 7 to 12 mil single ply, mass within ±3 % (of
       a real one ±5.2 %, a standard deviation of 3 %), a tap note that drums have, and one lug 20 cents up or down. @param
       hasPatchCheck  a second lug check with a weight on the head */
    LugCheckTrial (unsigned seed, bool hasPatchCheck, Mistake = Mistake::none, Played = Played::asModel);

    /** What listening and fitting make of the lug check in a room with noise. */
    Outcome at (double signalToNoise) const;

private:
    struct Recorded
    {
        LugCheck check;
        listening::Recording dry;
        unsigned seed = 0;
    };

    fitting::HeadFitSetup believed;
    std::vector<Recorded> checks;
    Surroundings surroundings;
    int lugOff = 0;
    double note = 0.0; ///< Hz, the tap note
};

/** How far drums that the engine plays lie off the model, which has solved their modes: cents, and ln of the decays' ratio in a
 * room. */
inline constexpr double playedError = 1.5, playedDecayError = 0.5;

/** What six strikes of a finished drum gave. */
struct StrikesOutcome
{
    bool isPossible = false;
    std::string refusal{};    ///< why, if it is not possible
    double noteCents[2]{};    ///< found over true, batter and resonant
    double tensionShare[2]{}; ///< found over true, minus 1
    double pull[2]{};         ///< the same over the fit's own standard deviation
    Calibration tension[2]{};

    /** Cents, Cramér–Rao bounds of the resonant head's tap note from the lines that were named, the model without error and the
        masses known beforehand as well as the fit has it. */
    struct Bound
    {
        double byNoise = 0.0; ///< the recordings' noise alone
        double inRoom = 0.0;  ///< and what a room does to a mode
        double ifHeard = 0.0; ///< in the room, if the head's own (1,1) and (2,1) were heard to a cent besides
    };

    Bound bound{};

    /** What was said of the lugs' even waves. */
    struct Wave
    {
        fitting::Estimate found; ///< cents
        double cents = 0.0;      ///< true

        bool isWithin() const noexcept { return std::abs (found.value - cents) <= 2.0 * found.error; }
    };

    std::vector<Wave> waves{};
};

/** A random finished drum, struck six times, to be heard at any ratio of signal to noise. */
class StrikesTrial
{
public:
    /** The drum depends on `seed` alone: as in LugCheckTrial, with a resonant head of 2.5 to 4 mil tuned 2 semitones below to 9
       above the batter, both heads' masses within ±3 % (of a real one ±5.2 %) and one lug of each off by so much. Struck six
       times anywhere within 0.85 of the radius at 1 to 2 m/s (1 to 5 of a real one), heard from above and from below in turn. */
    explicit StrikesTrial (unsigned seed, double lugCents = 20.0, bool hasWiresOn = false, Played = Played::asModel);

    /** What listening and fitting make of the strikes in a room with noise. */
    StrikesOutcome at (double signalToNoise) const;

private:
    struct Recorded
    {
        listening::Recording dry;
        unsigned seed = 0;
    };

    StrikesOutcome::Bound boundOf (const fitting::DrumFit&, const std::vector<fitting::Line>&) const;

    fitting::DrumFitSetup believed;
    modal::DrumSpec built;
    Surroundings surroundings;
    modal::Tensions tensions;
    double lugCents;
    double notes[2]{}; ///< Hz, both tap notes
    std::vector<Recorded> strikes;
};

} // namespace synthetic
