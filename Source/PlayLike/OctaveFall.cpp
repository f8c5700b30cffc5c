#include "OctaveFall.h"

#include "Listening/Envelope.h"
#include "Listening/Taps.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace playlike
{
namespace
{

constexpr double frame = 1.0e-3;                      // s
constexpr double averaged = 0.01;                     // s
constexpr double startLevel = -3.0, endLevel = -18.0; // dB

double powerAt (double decibels)
{
    return std::pow (10.0, 0.1 * decibels);
}

std::optional<double> t60Of (const listening::Envelope& envelope, double blow, double end, double noise)
{
    std::vector<double> powers;

    for (double t = blow; t + averaged < end; t += frame)
        powers.push_back (std::max (0.0, envelope.mean (t, t + averaged) - noise));

    if (powers.empty())
        return std::nullopt;

    const auto loudest = std::max_element (powers.begin(), powers.end());

    // The last window above a level, since modes that beat rise again.
    const auto lastAbove = [&] (double decibels)
    {
        const auto last =
            std::find_if (powers.rbegin(), powers.rend(), [&] (double p) { return p > *loudest * powerAt (decibels); });
        return powers.rend() - last;
    };
    const auto first = lastAbove (startLevel), last = lastAbove (endLevel);
    constexpr double clear = 4.0; // power over the noise at the end of the fall
    const bool isClear = *loudest * powerAt (endLevel) > clear * noise && last < static_cast<std::ptrdiff_t> (powers.size());

    if (! isClear || last <= first)
        return std::nullopt;

    return 60.0 / (startLevel - endLevel) * frame * static_cast<double> (last - first);
}

std::optional<double> centreTimeOf (const listening::Envelope& envelope, double blow, double end, double noise)
{
    constexpr double longest = 0.3; // s
    constexpr double clear = 4.0;   // energy over the noise's
    double energy = 0.0, moment = 0.0, ofNoise = 0.0;

    for (double t = 0.0; t < longest && blow + t + frame < end; t += frame)
    {
        const double power = envelope.mean (blow + t, blow + t + frame) - noise;
        energy += power;
        moment += power * t;
        ofNoise += noise;
    }

    if (energy <= clear * ofNoise || moment <= 0.0)
        return std::nullopt;

    return moment / energy;
}

} // namespace

OctaveFalls octaveFallsOf (const listening::Recording& recording, double blow, double end, std::optional<double> quiet)
{
    OctaveFalls falls;

    for (std::size_t i = 0; i < octaves.size(); ++i)
        if (const double low = octaves[i]; 2.0 * low < 0.5 * recording.sampleRate)
        {
            const auto envelope = listening::envelopeOf (recording, low, 2.0 * low, frame);
            const double noise = quiet ? envelope.mean (*quiet, *quiet + listening::quietSpan) : 0.0;
            const double last = std::min (end, recording.seconds());
            falls[i] = { t60Of (envelope, blow, last, noise), centreTimeOf (envelope, blow, last, noise) };
        }

    return falls;
}

} // namespace playlike
