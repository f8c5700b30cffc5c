#pragma once

#include <vector>

namespace sheets
{

/** Programme loudness of one channel in LKFS after ITU-R BS.1770-4: K-weighting, blocks of 400 ms overlapping by three quarters,
   the absolute gate at −70 and the relative gate at −10. −infinity for silence. Only at 48 kHz, the rate whose filter
   coefficients the recommendation prints; throws std::invalid_argument for another. */
double loudness (const std::vector<float>& samples, double sampleRate);

} // namespace sheets
