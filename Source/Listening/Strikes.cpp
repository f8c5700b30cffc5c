#include "Strikes.h"

#include "DampedSines.h"
#include "Subband.h"

#include "Modal/Units.h"

#include <algorithm>
#include <cmath>

namespace listening
{
namespace
{

using modal::units::twoPi;

constexpr int mostInBand = 10;
constexpr double fewestDeviations = 4.0;
constexpr double slowestDecay = 0.3, fastestDecay = 150.0; // 1/s
constexpr double faintest = 0.01;                          // of a strike's strongest: as likely the room's answer as a mode

/** One note while loudness is still absolute. */
struct Heard
{
    modal::Line line;
    std::vector<double> levels; ///< of each strike at Partial::settled; 0 where it is not clear of the noise
};

Heard heardOf (const CommonSine& sine, const SubbandFilter& filter, double centre, const std::vector<double>& sinceBlow)
{
    Heard heard;
    auto& line = heard.line;
    line.frequency = centre + sine.pole.imag() / twoPi;
    line.error = sine.poleError / twoPi;
    line.decay = -sine.pole.real();
    line.decayError = sine.poleError;

    for (std::size_t s = 0; s < sinceBlow.size(); ++s)
    {
        const double amplitude = std::abs (sine.amplitude[s]);
        const double atSettled = std::exp (-line.decay * (modal::Partial::settled - sinceBlow[s]));
        heard.levels.push_back (amplitude > fewestDeviations * sine.amplitudeError[s]
                                    ? amplitude / std::abs (filter.gain (sine.pole)) * atSettled
                                    : 0.0);
    }

    return heard;
}

} // namespace

std::vector<modal::Line> linesOf (const std::vector<Strike>& strikes, const PartialSearch& search)
{
    if (strikes.empty())
        return {};

    std::vector<Heard> all;

    for (double low = search.lowest; low < search.highest; low += SubbandFilter::width)
    {
        const double centre = low + 0.5 * SubbandFilter::width;
        std::vector<Channel> channels;
        std::vector<double> sinceBlow;
        double rate = 0.0;

        for (const auto& [recording, tap, quiet] : strikes)
        {
            const SubbandFilter filter (recording->sampleRate);
            const double from = tap.lastBlow + search.settle;
            const double to = std::min ({ tap.end - 2.0e-3, from + search.longest, recording->seconds() });
            auto band = filter.cut (*recording, from, to, centre);
            const auto noise = filter.cut (*recording, quiet, quiet + quietSpan, centre);
            rate = band.rate;
            sinceBlow.push_back (band.firstTime - tap.start);
            channels.push_back (
                { std::move (band.samples),
                  noise.samples.size() > 0 ? noise.samples.squaredNorm() / static_cast<double> (noise.samples.size()) : 0.0 });
        }

        for (const auto& sine : commonSines (channels, rate, mostInBand))
        {
            auto heard = heardOf (sine, SubbandFilter (strikes.front().recording->sampleRate), centre, sinceBlow);
            const auto& line = heard.line;

            if (line.frequency >= low && line.frequency < std::min (low + SubbandFilter::width, search.highest) &&
                line.decay > slowestDecay && line.decay < fastestDecay)
                all.push_back (std::move (heard));
        }
    }

    for (std::size_t s = 0; s < strikes.size(); ++s)
    {
        double strongest = 1.0e-300;

        for (const auto& heard : all)
            strongest = std::max (strongest, heard.levels[s]);

        for (auto& [line, levels] : all)
            if (const double loudness = levels[s] / strongest; loudness > faintest)
            {
                line.loudness = std::max (line.loudness, loudness);
                ++line.strikes;
            }
    }

    std::vector<modal::Line> lines;

    for (const auto& heard : all)
        if (heard.line.strikes > 0)
            lines.push_back (heard.line);

    std::sort (lines.begin(), lines.end(), [] (const modal::Line& a, const modal::Line& b) { return a.frequency < b.frequency; });
    return lines;
}

} // namespace listening
