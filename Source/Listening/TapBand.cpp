#include "TapBand.h"

#include <algorithm>
#include <array>
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

} // namespace

HeardRing::HeardRing (const Recording& whole, const Tap& tap, double quietMoment) : recording (&whole), quiet (quietMoment)
{
    const auto glide = glideOf (whole, tap, quiet);

    for (const double part : parts)
    {
        rings.push_back (ringOf (whole, tap, { part * glide.rise, glide.rate }));

        if (glide.isNone())
            break;
    }
}

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

} // namespace listening
