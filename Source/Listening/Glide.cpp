#include "Glide.h"

#include "DampedSines.h"
#include "Subband.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace listening
{
namespace
{

constexpr double beforeNext = 2.0e-3; // s

/** Samples between samples: Lagrange's polynomial through the six nearest. */
double interpolated (const std::vector<double>& samples, double at)
{
    constexpr int points = 6, before = points / 2 - 1;
    const double whole = std::floor (at), part = at - whole;
    const auto first = static_cast<std::ptrdiff_t> (whole) - before;
    double sum = 0.0;

    for (int i = 0; i < points; ++i)
    {
        const auto index = first + i;

        if (index < 0 || index >= static_cast<std::ptrdiff_t> (samples.size()))
            continue;

        double weight = 1.0;

        for (int j = 0; j < points; ++j)
            if (j != i)
                weight *= (part + before - j) / (i - j);

        sum += weight * samples[static_cast<std::size_t> (index)];
    }

    return sum;
}

/** How badly few damped sines in each of the loudest bands explain a tap's ring. */
class GlideScore
{
public:
    GlideScore (const Recording& whole, const Tap& ofTap, double quiet)
        : recording (whole), tap (ofTap), filter (whole.sampleRate)
    {
        tap.end = std::min (tap.end, tap.lastBlow + longest);
        const auto steady = ringOf (recording, tap, {});

        for (double centre = lowest; centre <= highest; centre += SubbandFilter::width)
        {
            const auto sound = cut (steady, centre);
            const auto noise = filter.cut (recording, quiet, quiet + quietSpan, centre).samples;

            if (sound.size() >= fewestSamples)
                bands.push_back ({ centre, sound.squaredNorm(),
                                   noise.size() > 0 ? noise.squaredNorm() / static_cast<double> (noise.size()) : 0.0 });
        }

        std::sort (bands.begin(), bands.end(), [] (const Band& a, const Band& b) { return a.energy > b.energy; });
        bands.resize (std::min (bands.size(), mostBands));

        while (! bands.empty() && bands.back().energy < faintest * bands.front().energy)
            bands.pop_back();
    }

    /** See fewSinesResidue(): mean of the bands; 0 without a band that can be used. */
    double of (const Glide& glide) const
    {
        const auto ring = ringOf (recording, tap, glide);
        double sum = 0.0;

        for (const auto& band : bands)
            sum += fewSinesResidue (cut (ring, band.centre), band.noiseVariance);

        return bands.empty() ? 0.0 : sum / static_cast<double> (bands.size());
    }

private:
    static constexpr double lowest = 110.0, highest = 610.0; // Hz, of a band's centre
    static constexpr double settle = 8.0e-3, longest = 0.5;  // s
    static constexpr Eigen::Index fewestSamples = 40;
    static constexpr std::size_t mostBands = 3;
    static constexpr double faintest = 0.003; // of the loudest band's energy

    struct Band
    {
        double centre, energy, noiseVariance;
    };

    Eigen::VectorXcd cut (const Ring& ring, double centre) const
    {
        return filter.cut (ring.sound, settle, ring.sound.seconds(), centre).samples;
    }

    const Recording& recording;
    Tap tap;
    SubbandFilter filter;
    std::vector<Band> bands;
};

} // namespace

double Glide::integral (double t) const noexcept
{
    return (1.0 - std::exp (-rate * t)) / rate;
}

double Glide::timeAt (double steady) const noexcept
{
    double t = std::max (0.0, steady - rise / rate);

    for (int step = 0; step < 4; ++step)
        t -= (steadyTime (t) - steady) / (1.0 + rise * std::exp (-rate * t));

    return t;
}

Ring ringOf (const Recording& recording, const Tap& tap, const Glide& glide)
{
    Ring ring{ { recording.sampleRate, {} }, glide };
    const double end = std::min (tap.end - beforeNext, recording.seconds()) - tap.lastBlow;

    if (end <= 0.0)
        return ring;

    const auto& samples = recording.samples;
    const auto first = static_cast<std::size_t> (tap.lastBlow * recording.sampleRate);

    if (glide.isNone())
    {
        const auto count = std::min (static_cast<std::size_t> (end * recording.sampleRate), samples.size() - first);
        const auto from = samples.begin() + static_cast<std::ptrdiff_t> (first);
        ring.sound.samples.assign (from, from + static_cast<std::ptrdiff_t> (count));
        return ring;
    }

    const auto count = static_cast<std::size_t> (glide.steadyTime (end) * recording.sampleRate);
    ring.sound.samples.reserve (count);

    for (std::size_t i = 0; i < count; ++i)
        ring.sound.samples.push_back (
            interpolated (samples, static_cast<double> (first) +
                                       glide.timeAt (static_cast<double> (i) / recording.sampleRate) * recording.sampleRate));

    return ring;
}

Glide glideOf (const Recording& recording, const Tap& tap, double quiet)
{
    constexpr std::array<double, 7> rises{ 0.008, 0.015, 0.025, 0.04, 0.06, 0.09, 0.13 };
    constexpr std::array<double, 3> rates{ 6.0, 12.0, 24.0 }; // 1/s: decays of 3 to 12
    constexpr double clearly = 0.2;                           // of ln residue
    const GlideScore score (recording, tap, quiet);
    const double steady = score.of ({});
    Glide best;
    double least = steady;
    const auto attempt = [&] (const Glide& glide)
    {
        if (const double here = score.of (glide); here < least)
        {
            least = here;
            best = glide;
        }
    };

    for (const double rise : rises)
        for (const double rate : rates)
            attempt ({ rise, rate });

    if (! best.isNone())
        for (double step = 0.25; step > 0.01; step *= 0.6)
            for (const double way : { step, -step })
            {
                attempt ({ best.rise * std::exp (way), best.rate });
                attempt ({ best.rise, best.rate * std::exp (way) });
                attempt ({ best.rise * std::exp (way), best.rate * std::exp (way) });
            }

    return least < steady - clearly ? best : Glide{};
}

} // namespace listening
