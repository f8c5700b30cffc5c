#pragma once

#include "Listening/Recording.h"

#include <string>
#include <vector>

/** Strikes made of damped sines that are known to the last digit, as a recorded drum has them, and what microphone, room and file
   do to them. Nothing here knows how they are listened to. */
namespace synthetic
{

/** A mode that starts at `start` and falls to `frequency`. */
struct KnownMode
{
    double frequency = 0.0; ///< Hz, at rest
    double t60 = 1.0;       ///< s
    double amplitude = 0.1;
    double start = 0.0;  ///< Hz, at the blow
    double phase = 0.0;  ///< rad
    double relax = 15.0; ///< 1/s, of the glide

    double at (double t) const; ///< t s after the blow
    double cents() const;       ///< from rest up to the start
};

/** The partials of a recorded 14-inch snare with its wires off: 243.6 Hz early, at rest at 232 beside a partner at 242; 423.3 and
   431; 548.5; 620.7; 632; 696.6; 731; 797 and 802; 889.7 Hz.

    @param glide  over what was recorded: 84 cents for the lowest */
std::vector<KnownMode> recordedSnare (double glide = 1.0);

/** What comes on top of the modes, and what is then done to the sound. */
struct Handling
{
    double click = 0.0;         ///< the stick: noise of 10 ms and a pulse, peak over the modes' together
    double wires = 0.0;         ///< noise above 300 Hz, T60 0.3 s, loudest after 20 ms; peak over the modes' together
    double roomShare = 0.0;     ///< energy of the room's response over the direct sound's
    double roomTime = 0.5;      ///< s, reverberation time
    double delay = 0.0;         ///< s by which a second microphone, half as loud, hears it later; both added
    double hum = 0.0;           ///< of 50 Hz and three harmonics, peak over the modes' together
    double noise = 60.0;        ///< dB, the modes' peak over the noise's root mean square
    bool automaticGain = false; ///< of a telephone: attack 50 ms, release 0.5 s, and no bass below 100 Hz
    double clipAt = 0.0;        ///< of the peak; 0: not clipped
    double codec = 0.0;         ///< dB, signal over quantisation noise in each band of a lossy codec; 0: none
    double sampleRate = 48000.0;
};

inline constexpr double knownBlow = 0.4; ///< s

listening::Recording recordingOf (const std::vector<KnownMode>&, const Handling&, unsigned seed);

/** How well a strike was heard. */
struct HearingScore
{
    int modes = 0;
    int found = 0; ///< within 5 cents at rest
    int told = 0;  ///< within 5 cents or the 95 % that is stated
    int invented =
        0;          ///< as loud as 5 % of the loudest 60 ms after the blow, and no mode within 20 cents, or one mode heard twice
    int decays = 0; ///< of those found, within 20 %
    int glides = 0; ///< of those found, within 15 cents or a quarter
    double worst = 0.0;           ///< cents, among those found
    std::vector<double> errors{}; ///< cents, stated of each mode
    std::string text{};           ///< what was missed and invented
};

/** Listens to the first tap of a recording. */
HearingScore heardIn (const listening::Recording&, const std::vector<KnownMode>&);

} // namespace synthetic
