#include "Strikes.h"

#include "DampedSines.h"
#include "TapBand.h"

#include "Modal/InputError.h"
#include "Modal/Units.h"

#include <algorithm>
#include <cmath>

namespace listening
{
namespace
{

using modal::units::twoPi;

constexpr int mostOfStrikes = 10;
constexpr double faintest = 0.01; // of a strike's strongest: as likely the room's answer as a mode

/** One note while loudness is still absolute. */
struct Heard
{
    fitting::Line line;
    std::vector<double> levels; ///< of each strike at Partial::settled; 0 where it is not clear of the noise
};

Heard heardOf (const CommonSine& sine, const std::vector<SubbandFilter>& filters, const std::vector<Channel>& bands)
{
    Heard heard;
    auto& line = heard.line;
    line.frequency = bands.front().carrier + sine.pole.imag() / twoPi;
    line.error = sine.poleError / twoPi;
    line.decay = -sine.pole.real();
    line.decayError = sine.decayError;
    line.rise = *std::max_element (sine.rise.begin(), sine.rise.end());

    for (std::size_t s = 0; s < bands.size(); ++s)
    {
        const double amplitude = std::abs (sine.amplitude[s]);
        const double atSettled = std::exp (-line.decay * (fitting::Partial::settled - bands[s].firstTime));
        heard.levels.push_back (amplitude > fewestDeviations * sine.amplitudeError[s]
                                    ? amplitude / std::abs (filters[s].gain (sine.pole)) * atSettled
                                    : 0.0);
    }

    return heard;
}

/** One a strike. Poles are a sample's, so that bands have them in common only if they are equally fast. */
std::vector<SubbandFilter> filtersFor (const std::vector<Strike>& strikes)
{
    std::vector<SubbandFilter> filters;

    for (const auto& strike : strikes)
    {
        filters.emplace_back (strike.recording->sampleRate);

        if (std::abs (filters.back().rate() - filters.front().rate()) > 1.0e-6)
            throw modal::InputError ("sample rate of the strikes",
                                     std::to_string (std::lround (strikes.front().recording->sampleRate)) + " and " +
                                         std::to_string (std::lround (strike.recording->sampleRate)) + " Hz",
                                     "one for all of them, or multiples of 300 Hz");
    }

    return filters;
}

} // namespace

std::vector<fitting::Line> linesOf (const std::vector<Strike>& strikes, const PartialSearch& search)
{
    if (strikes.empty())
        return {};

    const auto filters = filtersFor (strikes);
    std::vector<HeardRing> rings;

    for (const auto& [recording, tap, quiet] : strikes)
        rings.emplace_back (*recording, tap, quiet);

    std::vector<Heard> all;

    for (const auto& band : bandsOf (filters, rings, search, search.highest, mostOfStrikes))
        for (const auto& sine : band.sines)
            all.push_back (heardOf (sine, filters, band.channels));

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

    std::vector<fitting::Line> lines;

    for (const auto& heard : all)
        if (heard.line.strikes > 0)
            lines.push_back (heard.line);

    std::sort (lines.begin(), lines.end(),
               [] (const fitting::Line& a, const fitting::Line& b) { return a.frequency < b.frequency; });
    return lines;
}

} // namespace listening
