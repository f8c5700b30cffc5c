#pragma once

#include "DrumSetup.h"

namespace engine
{

/** The ring of the drum note as played, s to -60 dB, with the wires as the setup has them, after a stroke of the tip.

    From the energy of that mode alone, which is what the predicted ring speaks of, and its fall from -5 to -35 dB, so that the
   two agree where the wires are off. With wires it depends on the stroke: the harder it is, the more they rattle and take. 0 if
   no mode of the band moves the heads. Takes a tenth of a second of one core; not for the audio thread.

    @param position  share of the radius, 0 to 0.98
    @param speed     m/s
    @throws modal::InputError if the setup cannot be played
*/
double playedRing (const DrumSetup&, double position = 0.25, double speed = 3.0);

} // namespace engine
