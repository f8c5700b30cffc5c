#include "TapBand.h"

#include "Modal/Units.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace listening
{
namespace
{

constexpr std::array<double, 5> parts{ 1.0, 0.5, 0.7, 1.4, 2.0 }; // of the glide

Channel channelOf (const SubbandFilter& filter, const HeardRing& heard, std::size_t part, const PartialSearch& search,
                   double centre)
{
    const auto& ring = heard.rings[std::min (part, heard.rings.size() - 1)];
    const double from = ring.glide.isNone() ? search.settle : std::min (search.settle, search.settleOfGlide);
    const double to = std::min (ring.sound.seconds(), from + search.longest);
    auto sound = filter.cut (ring.sound, from, to, centre);
    const auto noise = filter.cut (*heard.recording, heard.quiet, heard.quiet + quietSpan, centre).samples;
    return { .samples = std::move (sound.samples),
             .noiseVariance = noise.size() > 0 ? noise.squaredNorm() / static_cast<double> (noise.size()) : 0.0,
             .glide = ring.glide,
             .firstTime = sound.firstTime,
             .carrier = centre };
}

/** The damped sines that the taps share in one band. That part of the glides is taken out beforehand that suits the band best:
    heads are stretched one by one, so modes glide by different parts. */
TapBand bandOf (const std::vector<SubbandFilter>& filters, const std::vector<HeardRing>& rings, const PartialSearch& search,
                double centre, int most)
{
    const bool hasGlide =
        std::any_of (rings.begin(), rings.end(), [] (const HeardRing& heard) { return heard.rings.size() > 1; });
    TapBand best;
    double least = std::numeric_limits<double>::infinity();

    for (std::size_t part = 0; part < (hasGlide ? parts.size() : 1); ++part)
    {
        std::vector<Channel> channels;

        for (std::size_t s = 0; s < rings.size(); ++s)
            channels.push_back (channelOf (filters[s], rings[s], part, search, centre));

        const double badness = hasGlide ? commonSines (channels, filters.front().rate(), most, Effort::rough).badness : 0.0;

        if (badness < least)
        {
            least = badness;
            best.channels = std::move (channels);
        }
    }

    best.sines = commonSines (best.channels, filters.front().rate(), most).sines;
    return best;
}

} // namespace

HeardRing::HeardRing (const Recording& whole, const Tap& tap, double quietMoment)
    : recording (&whole), gain (gainRiseOf (whole, tap)), quiet (quietMoment)
{
    const auto steady = gain.isNone() ? Recording{} : withSteadyGain (whole, tap, gain);
    const auto& heard = gain.isNone() ? whole : steady;
    const auto glide = glideOf (heard, tap, quiet);

    for (const double part : parts)
    {
        rings.push_back (ringOf (heard, tap, { part * glide.rise, glide.rate }));

        if (glide.isNone())
            break;
    }
}

std::vector<TapBand> bandsOf (const std::vector<SubbandFilter>& filters, const std::vector<HeardRing>& rings,
                              const PartialSearch& search, double highest, int most)
{
    std::vector<TapBand> bands;
    double gainVariance = 0.0;

    for (const auto& heard : rings)
        gainVariance += heard.gain.error * heard.gain.error / static_cast<double> (rings.size());

    for (double low = search.lowest; low < highest; low += SubbandFilter::width)
    {
        auto band = bandOf (filters, rings, search, low + 0.5 * SubbandFilter::width, most);
        std::erase_if (band.sines,
                       [&] (const CommonSine& sine)
                       {
                           const double frequency = band.channels.front().carrier + sine.pole.imag() / modal::units::twoPi;
                           return frequency < low || frequency >= std::min (low + SubbandFilter::width, highest) ||
                                  ! fadesLikeMode (-sine.pole.real());
                       });
        bands.push_back (std::move (band));
    }

    std::vector<CommonSine*> all;

    for (auto& band : bands)
        for (auto& sine : band.sines)
            all.push_back (&sine);

    widenErrorsInRoom (all);

    for (auto* sine : all)
        sine->decayError = std::hypot (sine->decayError, std::sqrt (gainVariance));

    return bands;
}

} // namespace listening
