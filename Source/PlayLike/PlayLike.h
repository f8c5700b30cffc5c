#pragma once

#include "OctaveFall.h"

#include "Listening/Taps.h"
#include "Modal/DrumSpec.h"
#include "Modal/Solve.h"
#include "Modal/hardware/Fittings.h"

#include <functional>
#include <vector>

/** The model set to ring and rattle as a recorded drum does. */
namespace playlike
{

/** A drum as far as it is known before: from a fit or as a person states it. */
struct KnownDrum
{
    modal::DrumSpec drum; ///< its muffling is replaced
    modal::Tensions tensions;
    modal::Fittings fittings; ///< numbers of the wires that a recording does not show stay as they are here
    /** The tensions come from a fit of the drum's notes without muffling, so that gel, which lowers notes, has to be made up for.
       False if they are those that the heads were tuned to. */
    bool isFitted = false;
};

/** A number as a recording tells it. */
struct Told
{
    double value = 0.0;
    double low = 0.0, high = 0.0; ///< 95 % range
    bool isMeasured = false;      ///< if not, the range is all that the model may have
};

/** Why the recording says nothing about the ring. */
enum class Doubt
{
    none,
    noisy,      ///< no octave falls by 18 dB before the noise
    ringsLonger ///< it rings longer than the drum without muffling; the model has no losses to take away
};

/** The drum with its numbers set, and which of them the recording shows. */
struct Likeness
{
    modal::DrumSpec drum;     ///< with the gel on it
    modal::Tensions tensions; ///< of a fitted drum: batter head tightened by as much as the gel's mass lowers the notes
    modal::Fittings fittings;

    bool hasWires = false; ///< wires are heard; else they are thrown off
    /** kg of gel on the batter head, 120 mm from the centre, 3 g to a disc of 30 mm, that makes the model fade as fast. Other
       muffling, the shell or the stand may take as much: how a drum fades does not tell which.
        If it is not told, the most likely amount with the wires off, and none with the wires on. */
    Told gel{};
    Told strandTension{}; ///< N, from loose (late and long) to tight (short and dry); if it is not told, as it was known before
    Doubt doubt = Doubt::none;

    OctaveFalls recorded{}, played{};
    listening::Recording sound{}; ///< the model's stroke, full scale as the engine has it; the microphones' usual mix in mono
};

/** Called with the share that is done; returns false to stop, upon which likenessOf() returns what it has. */
using Progress = std::function<bool (double)>;

/** Plays the drum with different amounts of gel, and with wires from loose to tight if they are heard, and weighs them by how
   alike the octaves fade: T60 from 125 Hz to 2 kHz tells the gel, the centre time from 2 to 8 kHz the strainer. What else makes
   octaves differ (where the drum is struck, strands that rattle by chance) is allowed for; the ranges follow from it.

    Takes some three seconds of one core. Not for the audio thread.

    @throws modal::InputError for a drum or tensions out of range, or a recording below 8 kHz */
Likeness likenessOf (const KnownDrum&, const listening::Recording&, const listening::Tap&, double quiet, const Progress& = {});

} // namespace playlike
