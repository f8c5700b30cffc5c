#include "LateReverberation.h"

#include "Engine/FeedbackDelayNetwork.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <numeric>

namespace place
{
namespace
{
constexpr double shortestOfTypical = 0.6, longestOfTypical = 1.9; // delays of the lines
constexpr double shortestTypical = 0.004, longestTypical = 0.045; // s: longer ones would be heard as separate echoes

/** Filter of a line of that delay. */
Shelves lossesIn (double seconds, const Decay::Bands& times, double sampleRate)
{
    Decay::Bands decibels;
    for (std::size_t i = 0; i < decibels.size(); ++i)
        decibels[i] = -60.0 * seconds / times[i];
    return shelvesFor (decibels, sampleRate);
}

/** Points of an octave's spectrum of energy, and how fast each decays. */
struct Spectrum
{
    std::vector<double> energy, rate; ///< rate in dB/s

    /** Decay curve by backward integration, dB; 0 at the start. */
    double levelAfter (double seconds) const
    {
        double now = 0.0, start = 0.0;
        for (std::size_t i = 0; i < energy.size(); ++i)
        {
            const double left = energy[i] / rate[i];
            start += left;
            now += left * std::pow (10.0, -0.1 * rate[i] * seconds);
        }
        return 10.0 * std::log10 (now / start);
    }

    double timeOf (double level) const
    {
        double low = 0.0, high = 1.0;
        while (levelAfter (high) > level)
            high *= 2.0;
        for (int i = 0; i < 40; ++i)
            (levelAfter (0.5 * (low + high)) > level ? low : high) = 0.5 * (low + high);
        return high;
    }

    /** T30: the straight line nearest to the decay curve from -5 to -35 dB, extended to 60 dB. */
    double t30() const
    {
        constexpr int points = 31;
        const double from = timeOf (-5.0), step = (timeOf (-35.0) - from) / (points - 1);
        double slope = 0.0, squares = 0.0;
        for (int i = 0; i < points; ++i)
        {
            const double offset = (i - 0.5 * (points - 1)) * step;
            slope += offset * levelAfter (from + i * step);
            squares += offset * offset;
        }
        return -60.0 * squares / slope;
    }
};

/** What an octave filter of 12 poles (sixth-order Butterworth high-pass and low-pass at the octave's borders) hears of a decay.
 */
Spectrum heardIn (std::size_t octave, const Shelves& losses, double seconds, double sampleRate)
{
    constexpr int perOctave = 16, octavesAside = 2;
    Spectrum heard;
    for (int i = -octavesAside * perOctave; i <= octavesAside * perOctave; ++i)
    {
        const double apart = static_cast<double> (i) / perOctave, frequency = bandCentre (octave) * std::exp2 (apart);
        if (frequency > 0.49 * sampleRate)
            break;
        const auto passed = [] (double octavesInside) { return 1.0 / (1.0 + std::exp2 (-12.0 * octavesInside)); };
        heard.energy.push_back (passed (0.5 + apart) * passed (0.5 - apart) * frequency);
        heard.rate.push_back (std::max (-losses.decibelsAt (frequency, sampleRate) / seconds, 1.0));
    }
    return heard;
}

} // namespace

Decay::Bands fittedTimes (const Decay::Bands& asked, double sampleRate)
{
    constexpr double seconds = 0.04; // the rate of decay hardly depends on the line's delay
    constexpr double step = 0.6, largestChange = 2.0;
    auto tried = asked, best = asked;
    double smallestError = 1.0e9;
    for (int round = 0; round < 16; ++round)
    {
        const auto losses = lossesIn (seconds, tried, sampleRate);
        const auto now = tried;
        double error = 0.0; // largest, as a natural logarithm
        for (std::size_t i = 0; i < octaveCentres.size(); ++i)
            if (std::sqrt (2.0) * octaveCentres[i] < 0.5 * sampleRate)
            {
                const double off = std::log (heardIn (i, losses, seconds, sampleRate).t30() / asked[i]);
                error = std::max (error, std::abs (off));
                tried[i] = std::clamp (tried[i] * std::exp (-step * off), asked[i] / largestChange, asked[i] * largestChange);
            }
        if (error < smallestError)
        {
            smallestError = error;
            best = now;
        }
    }
    return best;
}

LateReverberation::LateReverberation (const Decay::Bands& times, double typicalDelay, double sampleRate)
{
    const double typical = std::clamp (typicalDelay, shortestTypical, longestTypical);
    const double slowest = *std::max_element (times.begin(), times.end());
    for (int i = 0; i < lines; ++i)
    {
        // Spaced geometrically, and without a common divisor, so that echoes of different lines rarely coincide.
        const double seconds =
            typical * shortestOfTypical * std::pow (longestOfTypical / shortestOfTypical, static_cast<double> (i) / (lines - 1));
        auto& samples = delay[static_cast<std::size_t> (i)];
        samples = static_cast<std::size_t> (seconds * sampleRate);
        const auto sharesDivisor = [&] (std::size_t other) { return std::gcd (samples, other) > 1; };
        while (std::any_of (delay.begin(), delay.begin() + i, sharesDivisor))
            ++samples;

        // No frequency may last for ever where the response of the shelves is uneven.
        const double exact = static_cast<double> (samples) / sampleRate;
        auto shelves = lossesIn (exact, times, sampleRate);
        double highest = -1.0e9;
        for (double frequency = 20.0; frequency < 0.5 * sampleRate; frequency *= 1.06)
            highest = std::max (highest, shelves.decibelsAt (frequency, sampleRate));
        const double allowed = -60.0 * exact / (1.5 * slowest);
        if (highest > allowed)
            shelves.gain *= std::pow (10.0, (allowed - highest) / 20.0);
        losses.set (i, shelves);
    }
    makeMemory();
}

LateReverberation::LateReverberation (engine::ByteReader& bytes)
{
    pass (*this, bytes);
    makeMemory();
}

void LateReverberation::makeMemory()
{
    memory.assign (std::bit_ceil (*std::max_element (delay.begin(), delay.end()) + 1), Eigen::Array<float, lines, 1>::Zero());
    mask = memory.size() - 1;
}

void LateReverberation::reset() noexcept
{
    std::fill (memory.begin(), memory.end(), Eigen::Array<float, lines, 1>::Zero());
    losses.reset();
}

LateReverberation::Lines LateReverberation::next (const Lines& input) noexcept
{
    using Half = engine::FeedbackDelayNetwork<double>;
    static_assert (lines == 2 * Half::lines);

    Lines arrived;
    for (int i = 0; i < lines; ++i)
        arrived[i] = static_cast<double> (memory[(position - delay[static_cast<std::size_t> (i)]) & mask][i]);
    const Lines out = losses.next (arrived);

    // A Hadamard matrix of 16 rows from two of 8.
    Half::Signs sum, difference;
    for (int i = 0; i < Half::lines; ++i)
    {
        sum[static_cast<std::size_t> (i)] = out[i] + out[i + Half::lines];
        difference[static_cast<std::size_t> (i)] = out[i] - out[i + Half::lines];
    }
    sum = Half::transformed (sum);
    difference = Half::transformed (difference);
    auto& to = memory[position & mask];
    for (int i = 0; i < Half::lines; ++i)
    {
        to[i] = static_cast<float> (0.25 * sum[static_cast<std::size_t> (i)] + input[i]);
        to[i + Half::lines] = static_cast<float> (0.25 * difference[static_cast<std::size_t> (i)] + input[i + Half::lines]);
    }
    ++position;
    return out;
}

} // namespace place
