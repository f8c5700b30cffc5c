#pragma once

#include "Listening/Recording.h"

#include "Modal/Solve.h"
#include "Modal/hardware/Wires.h"
#include "Modal/heads/Muffling.h"

#include <optional>
#include <vector>

/** Recordings made by playing the engine: a stick that bounces, microphones, a room and noise. The fit's forward model knows
    nothing of these. */
namespace synthetic
{

inline constexpr double leadIn = 0.3; ///< s of quiet before a recording's first tap

/** How a recording comes about. */
struct Surroundings
{
    double signalToNoise = 40.0; ///< dB: the first quarter second of the loudest tap over the noise, both from 80 Hz to 4 kHz
    double roomShare = 0.1;      ///< energy of the room's response over the direct sound's
    double roomTime = 0.35;      ///< s, reverberation time
    unsigned seed = 1;
    bool isByTelephone = false; ///< see throughTelephone()
};

/** How the modes of a drum that is played lie off the model's, as those of real drums do; see Fitting/common/Discrepancy.h.
   Partners are off by the same. */
struct Deviations
{
    double cents = 0.0; ///< standard deviation, correlated as errorCorrelation() has it
    double decay =
        0.0; ///< standard deviation of ln (decay played over decay of the model), each mode by itself, within two of them
    unsigned seed = 1;
};

/** A lug check of one head. The other is held still, unless otherTension is given; a drum that is open below is tapped as it is.
 */
struct LugCheck
{
    modal::DrumSpec drum; ///< as built: not what a person believes about it
    modal::HeadSide side = modal::HeadSide::batter;
    double tension = 0.0;       ///< N/m
    std::vector<double> lugs{}; ///< tension beside each lug over the mean, minus 1
    std::optional<modal::MufflingItem> patch{};
    double inset = 25.0e-3;      ///< m
    double insetSpread = 3.0e-3; ///< m, a hand's scatter
    double angleSpread = 0.05;   ///< rad
    double speed = 0.6;          ///< m/s of the stick
    double between = 0.8;        ///< s from tap to tap
    double otherTension = 0.0;   ///< N/m of the other head, if it is not held still
    Deviations deviations{};
};

/** Hz: the (1,1) that the lug check plays, mean of its partners. */
double playedTapNote (const LugCheck&);

/** All taps in the order of the lugs, the microphone 30 mm above the place that is tapped; neither room nor noise, for placed().
    @param seed  of the hand's scatter */
listening::Recording dryRecord (const LugCheck&, unsigned seed);

/** The same in its surroundings, whose seed is the hand's too. */
listening::Recording record (const LugCheck&, const Surroundings&);

/** One strike of the finished drum. */
struct Strike
{
    modal::DrumSpec drum;
    modal::Tensions tensions;
    modal::WireSpec wires{};
    double position = 0.3;         ///< share of the radius
    double angle = 0.6;            ///< rad
    bool isHeardFromBelow = false; ///< microphone 80 mm below the resonant head instead of above the batter head
    double speed = 2.0;            ///< m/s
    double seconds = 1.2;
    int count = 1;        ///< strokes, one after the other
    double between = 1.2; ///< s
    Deviations deviations{};
};

/** All strokes, neither room nor noise, for placed(). */
listening::Recording dryRecord (const Strike&);

/** The same in its surroundings. */
listening::Recording record (const Strike&, const Surroundings&);

/** Room and noise on top of a dry recording, and the telephone. */
listening::Recording placed (listening::Recording dry, const Surroundings&);

/** What a telephone makes of it: a band from 90 Hz to 7 kHz, automatic gain of up to 12 dB that drops at a blow and recovers by 6
   dB a second, and noise of a lossy code 18 dB below each 190 Hz of each 43 ms. The figures are common practice, no source. */
listening::Recording throughTelephone (listening::Recording, unsigned seed);

} // namespace synthetic
