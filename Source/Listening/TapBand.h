#pragma once

#include "DampedSines.h"
#include "Partials.h"
#include "Subband.h"

/** One band of a tap, in which partials and strikes are searched for modes. */
namespace listening
{

/** @param decay  1/s; faster than 150 is the stroke itself, slower than 0.3 a hum */
constexpr bool fadesLikeMode (double decay) noexcept
{
    return decay > 0.3 && decay < 150.0;
}

/** A tap in which bands are cut. */
struct HeardRing
{
    HeardRing (const Recording&, const Tap&, double quiet);

    const Recording* recording;
    double quiet; ///< s, where the recording's noise is measured; see quietestMoment()

    /** With the whole glide taken out first, then with less and more of it; one alone without a glide. */
    std::vector<Ring> rings;
};

/** One band of several taps and the damped sines in it. */
struct TapBand
{
    std::vector<Channel> channels;
    std::vector<CommonSine> sines;
};

/** The damped sines that several taps, each with its own filter, share in one band. That part of the glides is taken out
    beforehand that suits the band best: heads are stretched one by one, so modes glide by different parts.

    @param centre  Hz, of the band
    @param most    largest number of sines */
TapBand bandOf (const std::vector<SubbandFilter>&, const std::vector<HeardRing>&, const PartialSearch&, double centre, int most);

} // namespace listening
