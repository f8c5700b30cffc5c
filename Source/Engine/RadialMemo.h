#pragma once

#include "Modal/DrumModes.h"

#include <map>
#include <mutex>
#include <utility>
#include <vector>

namespace engine
{

/** Radial parts of basis functions at places that are the same on every head. They depend on nothing that a person sets but the
    radius, which only scales them, so each is worked out once. Safe from any thread but the audio thread. */
class RadialMemo
{
public:
    /** @param shares  places as shares of the radius, 0 to 1 */
    explicit RadialMemo (std::vector<double> shares) : places (std::move (shares)) {}

    /** The function on a head of radius 1 m where its angle's part is largest, one entry a place. On a head of radius a it is 1/a
        of that. The reference stays good. */
    const std::vector<double>& operator() (const modal::BasisFunction&);

private:
    const std::vector<double> places;
    std::mutex mutex;
    std::map<std::pair<int, int>, std::vector<double>> known; ///< by m and n
};

} // namespace engine
