#pragma once

#include "Listening/Recording.h"

#include <vector>

namespace recordings
{

/** A stroke's spectrogram in bands that are even on the mel scale, dB under its own loudest cell. */
struct MelSpectrogram
{
    static constexpr int bands = 48;
    static constexpr double lowest = 60.0, highest = 16000.0; ///< Hz
    static constexpr double frame = 20.0e-3, step = 5.0e-3;   ///< s
    static constexpr double floor = -60.0;                    ///< dB; what is softer counts as that

    std::vector<std::vector<double>> levels; ///< [frame][band]
};

/** @param stroke   as strokeOf() gives it */
MelSpectrogram melSpectrogram (const listening::Recording& stroke);

/** Root mean square of the difference of all cells that one of both has above the floor, dB. */
double distance (const MelSpectrogram&, const MelSpectrogram&);

using MelSpectrograms = std::vector<MelSpectrogram>;

/** Median distance of a stroke to the kit that is nearest by the median of its own strokes. Kits are not empty. */
double distanceToNearest (const MelSpectrogram&, const std::vector<MelSpectrograms>& kits);

/** Median distance of these strokes to the nearest kit over that of the kits' own strokes to the nearest other kit. Below 1 the
    strokes lie nearer to the kits than these to one another. Needs two kits. */
double relativeDistance (const MelSpectrograms& strokes, const std::vector<MelSpectrograms>& kits);

} // namespace recordings
