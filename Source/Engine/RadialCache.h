#pragma once

#include "Modal/DrumModes.h"

#include <map>
#include <mutex>
#include <utility>
#include <vector>

namespace engine
{

/** Cache of the radial parts of basis functions at fixed shares of the radius. The radius only scales them, so each is computed
   once. Thread-safe; not for the audio thread. */
class RadialCache
{
public:
    /** @param shares  positions as shares of the radius, 0 to 1 */
    explicit RadialCache (std::vector<double> shares) : places (std::move (shares)) {}

    /** Values for a head of radius 1 m at the angle where the function is largest, one per position. On a head of radius a they
       are 1/a of that. The reference stays valid. */
    const std::vector<double>& operator() (const modal::BasisFunction&);

private:
    const std::vector<double> places;
    std::mutex mutex;
    std::map<std::pair<int, int>, std::vector<double>> known; ///< by m and n
};

} // namespace engine
