#pragma once

#include "DrumSetup.h"

#include <vector>

namespace engine
{

/** The softest stroke at one place that makes the wires speak. */
struct WireResponsePoint
{
    double position = 0.0;     ///< share of the radius, 0 the middle
    double softestSpeed = 0.0; ///< m/s of the stick's tip; infinite if the hardest stroke tried (10 m/s) leaves them still
};

/** What playing a drum tells that its modes alone do not. All from single strokes of a tip. */
struct PlayedResponse
{
    // One stroke at 3 m/s, a quarter of the radius from the middle. What is heard is 0 where there is no microphone.
    double contactTime = 0.0; ///< s that the tip is on the head, bounces of the same stroke together
    double peakForce = 0.0;   ///< N
    double rebound = 0.0;     ///< stick feel: speed away over speed of arrival, 0 to 1
    double brightness = 0.0;  ///< Hz, root mean square frequency of the first 20 ms at the first microphone
    double earlyToLate = 0.0; ///< dB, energy of the first 50 ms over that of what follows, same microphone
    double wireDuration =
        0.0; ///< s from the stroke until the last wire contact that had come off is back for good; 0 if none comes off

    std::vector<WireResponsePoint> wireResponse; ///< from the middle to the edge; empty without wires
};

/** Plays a setup and listens. Takes some tenths of a second of one core; not for the audio thread.

    Wires count as speaking when a tenth of the contacts that bear on the head at rest come off it within 40 ms. Speeds are found
   to 5 %.

    @throws modal::InputError if the setup cannot be played
*/
PlayedResponse playedResponse (const DrumSetup&);

} // namespace engine
