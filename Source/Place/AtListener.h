#pragma once

#include "Reverberation.h"

namespace place
{

/** What a place makes of a drum at the listener. Calculated with the statistics of the room (Reverberation.h), not with its
 * single reflections. */
struct AtListener
{
    double distance = 0.0;              ///< m, from the drum
    double level = 0.0;                 ///< dB(A), sound exposure level of one stroke: the level of one stroke a second
    double directOverReverberant = 0.0; ///< dB, at 1 kHz; infinite in the open air
    double noteLasts = 0.0;             ///< s until the drum note is 60 dB below its loudest, wires off
    double wiresClearTo =
        0.0; ///< m to where the direct sound of the wires is as loud as its reverberation; infinite in the open air
    double wiresHeardTo =
        0.0; ///< m to where the wires' sound is 10 dB above the usual noise; infinite if it is everywhere in the room

    /** Whichever of both is nearer. */
    double wiresCarryTo() const noexcept { return wiresClearTo < wiresHeardTo ? wiresClearTo : wiresHeardTo; }
};

/** How long a note that decays lasts at the listener. */
class NoteAtListener
{
public:
    explicit NoteAtListener (const Place&);

    /** s until a note is 60 dB below its loudest, which without the place decays by 60 dB in `time` seconds. In the open air that
       is `time`. */
    double lasts (double frequency, double time) const;

private:
    bool isRoom;
    double volume, distance, soundSpeed;
    Decay decay;
};

/** The wires are judged by the octave of 4 kHz, in which nearly all sound is theirs. Ten decibels in an octave is what ISO 7731
   asks of a signal that has to be noticed (from memory); their level is that of a stroke's energy in 125 ms, as a sound level
   meter at "fast" shows it.

    @param noteFrequency, noteTime   Hz, and s in which the drum note decays by 60 dB without the place
    @param stroke  energy of one stroke in each octave at 1 m without the place, Pa² s */
AtListener atListener (const Place&, double noteFrequency, double noteTime, const Octaves& stroke);

/** Noise in the octave of 4 kHz where noise is rated NR `rating`, dB (ISO/R 1996:1971, from memory). */
double noiseAt4kHz (double rating) noexcept;

} // namespace place
