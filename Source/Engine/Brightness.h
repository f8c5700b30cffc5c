#pragma once

#include <vector>

namespace engine
{

/** How bright a short sound is: the centroid on a logarithmic scale of the loudness in third octaves from 100 Hz to 16 kHz,
    Hz; 0 for silence. Loudness goes with the power 0.3 of the energy (Stevens's law), so that a quiet attack counts beside loud
    low modes as it does for the ear; an energy spectrum's centroid would only hear these. */
double brightnessOf (const std::vector<float>& samples, double sampleRate);

} // namespace engine
