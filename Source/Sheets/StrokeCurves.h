#pragma once

#include <vector>

namespace sheets
{

/** How the sound of one stroke fades, and of which frequencies it consists. */
struct StrokeCurves
{
    std::vector<double> ring;     ///< dB below the loudest, a value every `ringInterval`, from the stroke on
    std::vector<double> spectrum; ///< dB below the loudest band, a value a band

    static constexpr double ringInterval = 0.01;    ///< s
    static constexpr double lowestFrequency = 80.0; ///< Hz, where the first band begins
    static constexpr int bandsPerOctave = 12;
    static constexpr int bands = 80;       ///< to 8.1 kHz
    static constexpr double floor = -80.0; ///< dB, the least value of both

    /** Middle of a band, Hz. */
    static double frequencyOf (int band);

    /** The time after which the ring stays below this level for good, s; the length of the ring if it never does. */
    double timeTo (double level) const;
};

/** @throws std::invalid_argument if the sound is shorter than half a second */
StrokeCurves curvesOf (const std::vector<float>& sound, double sampleRate);

} // namespace sheets
