#pragma once

#include "Engine/DrumModel.h"

#include <memory>
#include <vector>

namespace editor
{

/** Spectrum and decay of a recorded strike. */
struct Analysis
{
    static constexpr double lowest = 60.0, highest = 8000.0; ///< Hz, of the spectrum
    static constexpr float floorLevel = -72.0f;              ///< dB below the peak that pictures show

    std::vector<float> spectrum;  ///< dB below its peak at frequencies spaced evenly in logarithm from lowest to highest
    double timeStep = 0.0;        ///< s between the points of both decays
    std::vector<float> level;     ///< dB below its peak: the whole sound
    std::vector<float> noteLevel; ///< dB below its peak: a band around one frequency
    double noteFrequency = 0.0;   ///< Hz, of that band

    /** The drum that was struck, which may no longer be the current one. */
    std::shared_ptr<const engine::DrumModel> drum;

    double frequencyOf (double index) const; ///< Hz of a point of the spectrum
    double indexOf (double hertz) const;
};

/** Hann-windowed Fourier transform of the first 0.7 s, and the decay in windows of 8 ms. The band around `note` is about 10 Hz
    wide. Empty if there are fewer than 1024 samples. */
Analysis analyse (const std::vector<float>& samples, double sampleRate, double note);

} // namespace editor
