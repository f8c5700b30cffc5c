#pragma once

#include "DampedSines.h"
#include "GainRise.h"
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
    GainRise gain; ///< that was taken out of the rings
    double quiet;  ///< s, where the recording's noise is measured; see quietestMoment()

    /** With the whole glide taken out first, then with less and more of it; one alone without a glide. */
    std::vector<Ring> rings;
};

/** One band of several taps and the damped sines in it. */
struct TapBand
{
    std::vector<Channel> channels;
    std::vector<CommonSine> sines;
};

/** The damped sines that several taps, each with its own filter, share, band by band, within each band's 100 Hz and fading as
   modes do. Their errors hold what the room and automatic gain do to them.

    @param highest  Hz
    @param most     largest number of sines in a band */
std::vector<TapBand> bandsOf (const std::vector<SubbandFilter>&, const std::vector<HeardRing>&, const PartialSearch&,
                              double highest, int most);

} // namespace listening
