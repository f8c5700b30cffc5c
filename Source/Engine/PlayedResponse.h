#pragma once

#include "DrumSetup.h"

#include <vector>

namespace engine
{

/** The softest stroke at one position that makes the wires respond. */
struct WireResponsePoint
{
    double position = 0.0;     ///< share of the radius, 0 is the centre
    double softestSpeed = 0.0; ///< m/s of the stick's tip; infinite if even 10 m/s does not
};

/** The strokes that are played. */
struct ResponseStrokes
{
    double speed = 3.0;     ///< m/s of the tip, 0.01 to 12
    double position = 0.25; ///< share of the radius, 0 to 0.98
    /** Where the softest stroke is looked for, from the centre. */
    std::vector<double> wirePositions{ 0.0, 0.2, 0.4, 0.6, 0.8, 0.95 };
    bool withOthers = true; ///< also the rimshot or sweep, and the ring with the wires on; half of the time
};

/** What a rimshot does with the tip as fast as in the stroke beside it. Sound figures are 0 without a microphone. */
struct RimshotResponse
{
    double contactTime = 0.0; ///< s that the tip is on the head
    double peakForce = 0.0;   ///< N, of the tip on the head
    double hoopForce = 0.0;   ///< N, of the shaft on the hoop
    double level = 0.0;       ///< dB, energy of its sound over that of the stroke on the head, first microphone
    double brightness = 0.0;  ///< Hz, as that of the stroke
};

/** What a brush's sweep in a circle half way to the edge does. Sound figures are 0 without a microphone. */
struct SweepResponse
{
    static constexpr double speed = 0.5, force = 0.3; ///< m/s, N

    double level = 0.0;      ///< dB, energy of a second of it over that of the tap, first microphone
    double brightness = 0.0; ///< Hz, brightnessOf() it once it is under way
};

/** Results of played strokes that the modes alone do not give. */
struct PlayedResponse
{
    bool isBrush = false; ///< what is said of a rimshot and of the rebound holds for a stick only, a sweep for a brush only

    // One stroke of the tip, or a tap of the brush. Sound figures are 0 without a microphone.
    double contactTime = 0.0; ///< s that the tip is on the head, including bounces
    double peakForce = 0.0;   ///< N
    double rebound = 0.0;     ///< speed away over speed of arrival, 0 to 1
    double brightness = 0.0;  ///< Hz, brightnessOf() the first 20 ms at the first microphone
    double earlyToLate = 0.0; ///< dB, dryness: energy of the first 50 ms over the rest, same microphone
    double snareSound = 0.0;  ///< s, decay time of the sound above 2 kHz, mostly the wires'; 0 without wires
    double ringWiresOn = 0.0; ///< s, playedRing(); 0 without wires

    double landingTime = 0.0; ///< s over which a brush's wires land

    RimshotResponse rimshot;
    SweepResponse sweep;
    std::vector<WireResponsePoint> wireResponse; ///< at ResponseStrokes::wirePositions; empty without wires
};

/** Plays a setup and measures it. Takes some tenths of a second of one core; not for the audio thread.

    Wires count as responding when contacts that bear a tenth of their force on the head at rest lift within 40 ms. Speeds are
   found to within 5 %.

    @throws modal::InputError if the setup cannot be played
*/
PlayedResponse playedResponse (const DrumSetup&, const ResponseStrokes& = {});

} // namespace engine
