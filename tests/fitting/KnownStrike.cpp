#include "KnownStrike.h"

#include "Fitting/common/Errors.h"
#include "Listening/Partials.h"
#include "Listening/Taps.h"
#include "Modal/NumberText.h"
#include "Modal/Units.h"
#include "Modal/pitch/Note.h"

#include <algorithm>
#include <cmath>
#include <random>

namespace synthetic
{
namespace
{

using Samples = std::vector<double>;
using modal::units::pi;
using modal::units::twoPi;

constexpr double perT60 = 6.907755; // ln 1000

/** First order high-pass. */
void removeBass (Samples& samples, double corner, double rate)
{
    const double keep = std::exp (-twoPi * corner / rate);
    double last = 0.0, low = 0.0;

    for (auto& x : samples)
    {
        low = keep * (low + x - last);
        last = x;
        x = low;
    }
}

void addRoom (Samples& samples, const Handling& handling, std::mt19937& random)
{
    std::normal_distribution<double> normal;
    const double rate = handling.sampleRate;
    Samples response;
    double energy = 0.0;

    for (double t = 0.002; t < handling.roomTime; t += 1.0 / rate)
    {
        response.push_back (normal (random) * std::exp (-perT60 * t / handling.roomTime));
        energy += response.back() * response.back();
    }

    // Every sixteenth sample of the response, each with the energy of sixteen: a room with fewer echoes, still hundreds each
    // second.
    constexpr std::size_t thinning = 16;
    const double scale = std::sqrt (static_cast<double> (thinning) * handling.roomShare / energy);
    const auto dry = samples;
    const auto first = static_cast<std::size_t> (0.002 * rate);

    for (std::size_t k = 0; k < response.size(); k += thinning)
        for (std::size_t i = first + k; i < samples.size(); ++i)
            samples[i] += scale * response[k] * dry[i - first - k];
}

/** Turns down within 50 ms and up again within 0.5 s towards one level, by 20 dB at most. */
void applyTelephoneGain (Samples& samples, double rate)
{
    constexpr double attack = 0.05, release = 0.5, wanted = 0.1, most = 10.0;
    double level = 0.0;

    for (auto& x : samples)
    {
        const double now = std::abs (x), time = now > level ? attack : release;
        level += (now - level) * (1.0 - std::exp (-1.0 / (time * rate)));
        x *= std::min (most, wanted / std::max (level, 1.0e-9));
    }
}

/** As lossy codecs do: a lapped cosine transform (MDCT, frames of 21 ms) with each band's coefficients rounded to steps that keep
   a ratio of signal to noise, and nothing above 16 kHz. */
void quantise (Samples& samples, double ratio, double rate)
{
    const auto half = static_cast<std::size_t> (std::lround (0.0213 * rate));
    Samples out (samples.size() + 2 * half, 0.0), window (2 * half);

    for (std::size_t n = 0; n < window.size(); ++n)
        window[n] = std::sin (pi * (static_cast<double> (n) + 0.5) / static_cast<double> (window.size()));

    // Only what listening uses is worth the time: coefficients below 1.6 kHz; the rest is left out.
    const auto used = std::min (half, static_cast<std::size_t> (1600.0 * 2.0 * static_cast<double> (half) / rate));
    const double shift = 0.5 + 0.5 * static_cast<double> (half);
    const auto cosine = [&] (std::size_t n, std::size_t k)
    { return std::cos (pi / static_cast<double> (half) * (static_cast<double> (n) + shift) * (static_cast<double> (k) + 0.5)); };
    Samples table;

    for (std::size_t k = 0; k < used; ++k)
        for (std::size_t n = 0; n < window.size(); ++n)
            table.push_back (window[n] * cosine (n, k));

    for (std::size_t start = 0; start + 2 * half <= samples.size(); start += half)
    {
        Samples coefficients (used, 0.0);

        for (std::size_t k = 0; k < used; ++k)
            for (std::size_t n = 0; n < 2 * half; ++n)
                coefficients[k] += table[k * 2 * half + n] * samples[start + n];

        for (std::size_t low = 0; low < used; low += 4) // bands of four coefficients, as codecs have them in the bass
        {
            double power = 0.0;

            for (std::size_t k = low; k < std::min (low + 4, used); ++k)
                power += coefficients[k] * coefficients[k] / 4.0;

            const double step = std::sqrt (12.0 * power * std::pow (10.0, -0.1 * ratio)) + 1.0e-12;

            for (std::size_t k = low; k < std::min (low + 4, used); ++k)
                coefficients[k] = step * std::round (coefficients[k] / step);
        }

        for (std::size_t k = 0; k < used; ++k)
            if (coefficients[k] != 0.0)
                for (std::size_t n = 0; n < 2 * half; ++n)
                    out[start + n] += 2.0 / static_cast<double> (half) * 0.5 * table[k * 2 * half + n] * coefficients[k];
    }

    std::copy_n (out.begin(), samples.size(), samples.begin());
}

} // namespace

double KnownMode::at (double t) const
{
    const double rise = start / frequency - 1.0;
    const double turns = frequency * (t + rise * (1.0 - std::exp (-relax * t)) / relax);
    return amplitude * std::exp (-perT60 * t / t60) * std::sin (phase + twoPi * turns);
}

double KnownMode::cents() const
{
    return modal::centsBetween (frequency, start);
}

std::vector<KnownMode> recordedSnare (double glide)
{
    std::vector<KnownMode> modes{ { 232.0, 0.50, 0.30, 243.6, 0.2 }, { 242.0, 0.80, 0.15, 246.0, 1.0 },
                                  { 423.3, 0.60, 0.20, 440.0, 1.0 }, { 431.0, 0.40, 0.15, 448.0, 2.0 },
                                  { 548.5, 0.60, 0.10, 560.0, 1.2 }, { 620.7, 0.70, 0.10, 640.0, 0.3 },
                                  { 632.0, 0.70, 0.10, 652.0, 2.4 }, { 696.6, 0.80, 0.10, 715.0, 1.7 },
                                  { 731.0, 1.00, 0.10, 755.0, 0.9 }, { 797.0, 0.70, 0.05, 812.0, 0.4 },
                                  { 802.0, 0.70, 0.05, 817.0, 1.4 }, { 889.7, 0.80, 0.05, 915.0, 0.0 } };

    for (auto& mode : modes)
        mode.start = mode.frequency * std::pow (mode.start / mode.frequency, glide);

    return modes;
}

listening::Recording recordingOf (const std::vector<KnownMode>& modes, const Handling& handling, unsigned seed)
{
    constexpr double seconds = 1.6;
    const double rate = handling.sampleRate;
    std::mt19937 random (seed);
    std::normal_distribution<double> normal;
    Samples samples (static_cast<std::size_t> (seconds * rate), 0.0), wires = samples;
    const auto blow = static_cast<std::size_t> (knownBlow * rate);
    double peak = 0.0;

    for (std::size_t i = blow; i < samples.size(); ++i)
    {
        for (const auto& mode : modes)
            samples[i] += mode.at (static_cast<double> (i - blow) / rate);

        peak = std::max (peak, std::abs (samples[i]));
    }

    for (std::size_t i = blow; i < samples.size(); ++i)
    {
        const double t = static_cast<double> (i - blow) / rate;
        samples[i] += 0.4 * handling.click * peak * normal (random) * std::exp (-t / 0.003) * (t < 0.01 ? 1.0 : 0.0);
        wires[i] = normal (random) * std::exp (-perT60 * t / 0.3) * (1.0 - std::exp (-t / 0.008));
    }

    if (handling.click > 0.0)
        for (std::size_t i = 0; i < static_cast<std::size_t> (0.0005 * rate); ++i)
            samples[blow + i] += handling.click * peak;

    removeBass (wires, 300.0, rate);
    removeBass (wires, 300.0, rate);

    for (std::size_t i = 0; i < samples.size(); ++i)
        samples[i] += 0.5 * handling.wires * peak * wires[i];

    if (handling.roomShare > 0.0)
        addRoom (samples, handling, random);

    if (handling.delay > 0.0)
        for (auto i = samples.size() - 1; i >= static_cast<std::size_t> (handling.delay * rate); --i)
            samples[i] += 0.5 * samples[i - static_cast<std::size_t> (handling.delay * rate)];

    const double noise = peak * std::pow (10.0, -handling.noise / 20.0);

    for (std::size_t i = 0; i < samples.size(); ++i)
    {
        const double turn = twoPi * 50.0 * static_cast<double> (i) / rate;
        samples[i] += noise * normal (random) + 0.4 * handling.hum * peak *
                                                    (std::sin (turn) + 0.5 * std::sin (2.0 * turn) + 0.8 * std::sin (3.0 * turn) +
                                                     0.4 * std::sin (5.0 * turn));
    }

    if (handling.automaticGain)
    {
        removeBass (samples, 100.0, rate);
        applyTelephoneGain (samples, rate);
    }

    double loudest = 0.0;

    for (const double x : samples)
        loudest = std::max (loudest, std::abs (x));

    for (auto& x : samples)
    {
        x *= 0.9 / loudest;

        if (handling.clipAt > 0.0)
            x = std::clamp (x / (0.9 * handling.clipAt), -1.0, 1.0);
    }

    if (handling.codec > 0.0)
        quantise (samples, handling.codec, rate);

    return { rate, std::move (samples) };
}

HearingScore heardIn (const listening::Recording& recording, const std::vector<KnownMode>& modes)
{
    constexpr double early = 0.06, faintest = 0.05;
    HearingScore score;
    score.modes = static_cast<int> (modes.size());
    const auto taps = listening::findTaps (recording);

    if (taps.empty())
    {
        score.text = "no tap";
        return score;
    }

    auto heard = listening::partialsOf (recording, taps.front(), listening::quietestMoment (recording));
    double loudest = 0.0;

    for (const auto& partial : heard)
        loudest = std::max (loudest, partial.level (early));

    std::erase_if (heard, [=] (const auto& partial) { return partial.level (early) < 0.2 * faintest * loudest; });
    std::vector<bool> isKnown (heard.size(), false);

    for (const auto& mode : modes)
    {
        std::size_t nearest = heard.size();
        double least = 20.0; // cents

        for (std::size_t i = 0; i < heard.size(); ++i)
            if (const double off = std::abs (modal::centsBetween (mode.frequency, heard[i].frequency));
                ! isKnown[i] && off < least)
            {
                least = off;
                nearest = i;
            }

        constexpr double near = 5.0; // cents
        const double error =
            nearest == heard.size() ? 0.0 : fitting::centsPerShare * heard[nearest].frequencyError / mode.frequency;

        if (nearest == heard.size() || least > near)
            score.text += " -" + modal::fixedText (mode.frequency, 1) +
                          (nearest < heard.size() ? "(" + modal::fixedText (heard[nearest].frequency, 1) + ")" : "");

        if (nearest == heard.size())
            continue;

        isKnown[nearest] = true;
        score.errors.push_back (error);
        score.told += least < std::max (near, 1.96 * error) ? 1 : 0;

        if (least > near)
            continue;

        const auto& partial = heard[nearest];
        const double wanted = mode.cents(), glide = 1200.0 * std::log2 (1.0 + partial.rise);
        ++score.found;
        score.worst = std::max (score.worst, least);
        score.decays += std::abs (partial.t60() / mode.t60 - 1.0) < 0.2 ? 1 : 0;
        score.glides += std::abs (glide - wanted) < std::max (15.0, 0.25 * wanted) ? 1 : 0;
    }

    for (std::size_t i = 0; i < heard.size(); ++i)
        if (! isKnown[i] && heard[i].level (early) > faintest * loudest)
        {
            ++score.invented;
            score.text += " +" + modal::fixedText (heard[i].frequency, 1);
        }

    return score;
}

} // namespace synthetic
