#include "TapBand.h"

#include <algorithm>

namespace listening
{

TapBand bandOf (const SubbandFilter& filter, const Recording& recording, const Tap& tap, double quiet,
                const PartialSearch& search, double centre)
{
    constexpr double beforeNext = 2.0e-3; // s
    const double from = tap.lastBlow + search.settle;
    const double to = std::min ({ tap.end - beforeNext, from + search.longest, recording.seconds() });
    const auto noise = filter.cut (recording, quiet, quiet + quietSpan, centre).samples;
    return { filter.cut (recording, from, to, centre),
             noise.size() > 0 ? noise.squaredNorm() / static_cast<double> (noise.size()) : 0.0 };
}

} // namespace listening
