#pragma once

#include "Recording.h"

#include <vector>

namespace listening
{

/** Levels of a recording over time and frequency. */
struct Spectrogram
{
    static constexpr double window = 0.08; ///< s, of a Hann window, which resolves 25 Hz
    static constexpr double floor = -70.0; ///< dB: what is fainter is as faint as this

    double firstTime = 0.0; ///< s in the recording, middle of the first frame
    double step = 0.0;      ///< s from frame to frame
    double binWidth = 0.0;  ///< Hz; bin 0 is at 0 Hz

    std::vector<std::vector<double>> levels{}; ///< dB, frame by frame, bin by bin; the loudest is 0

    /** dB at a time in the recording (s) and a frequency (Hz), of the nearest frame and between two bins; the floor outside. */
    double at (double time, double frequency) const noexcept;
};

/** From one time to another (s), frames `step` s apart, up to `highest` Hz. Outside the recording there is silence. */
Spectrogram spectrogramOf (const Recording&, double from, double to, double step, double highest);

} // namespace listening
