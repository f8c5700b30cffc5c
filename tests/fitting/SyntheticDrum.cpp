#include "SyntheticDrum.h"

#include "Engine/Drum.h"
#include "Listening/Envelope.h"

#include "Modal/Units.h"
#include "Modal/heads/OneHead.h"

#include <unsupported/Eigen/FFT>

#include <algorithm>
#include <cmath>
#include <complex>
#include <random>

namespace synthetic
{
namespace
{

constexpr double rate = 48000.0;
constexpr double highestMode = 2400.0; // Hz
constexpr int block = 480;

/** The drum as the instrument plays it. */
engine::DrumSetup setUp (const modal::DrumSpec& drum, const modal::Tensions& tensions, const modal::Fittings& fittings)
{
    auto setup = engine::setUp (drum, tensions, modal::solve (drum, tensions, { .highestFrequency = highestMode }), fittings);
    setup.sampleRate = rate;
    return setup;
}

/** Plays one stroke and adds what a microphone of the setup hears to a recording, from a time on. */
void play (const std::shared_ptr<const engine::DrumModel>& model, const engine::Stroke& stroke, int microphone, double seconds,
           double at, listening::Recording& into)
{
    engine::Drum drum (model);
    const auto total = static_cast<std::size_t> (seconds * rate);
    auto to = static_cast<std::size_t> (at * rate);
    into.samples.resize (std::max (into.samples.size(), to + total), 0.0);
    std::array<std::vector<float>, engine::maxMicrophones> buffers;
    std::array<float*, engine::maxMicrophones> outputs{};

    for (std::size_t m = 0; m < buffers.size(); ++m)
    {
        buffers[m].resize (block);
        outputs[m] = buffers[m].data();
    }

    drum.strike (stroke);

    for (std::size_t done = 0; done < total; done += block)
    {
        const auto frames = static_cast<int> (std::min<std::size_t> (block, total - done));
        drum.process (outputs.data(), frames);

        for (int i = 0; i < frames; ++i)
            into.samples[to++] +=
                static_cast<double> (buffers[static_cast<std::size_t> (microphone)][static_cast<std::size_t> (i)]);
    }
}

} // namespace

listening::Recording dryRecord (const LugCheck& check, unsigned seed)
{
    auto drum =
        check.otherTension > 0.0 ? modal::withHeadOnTop (check.drum, check.side) : modal::asTapped (check.drum, check.side);

    if (check.patch)
    {
        drum.muffling.push_back (*check.patch);
        drum.muffling.back().head = modal::HeadSide::batter;
    }

    modal::Fittings fittings;
    fittings.wires.on = false;
    auto setup = setUp (drum, { check.tension, check.otherTension, check.lugs, {} }, fittings);

    std::mt19937 random (seed);
    std::normal_distribution<double> normal;
    listening::Recording dry{ rate, {} };
    constexpr int microphones = 3;

    for (int lug = 0; lug < drum.lugs; lug += microphones)
    {
        const auto angleOf = [&] (int k) { return modal::units::twoPi * k / drum.lugs; };
        setup.microphones.clear();

        for (int m = 0; m < microphones; ++m)
        {
            const double r = drum.radius() - check.inset, angle = angleOf (std::min (lug + m, drum.lugs - 1));
            setup.microphones.push_back ({ "tap", r * std::cos (angle), r * std::sin (angle), 0.03 });
        }

        const auto model = std::make_shared<const engine::DrumModel> (setup);

        for (int m = 0; m < microphones && lug + m < drum.lugs; ++m)
        {
            engine::Stroke stroke;
            stroke.position = 1.0 - (check.inset + check.insetSpread * std::clamp (normal (random), -2.0, 2.0)) / drum.radius();
            stroke.angle = angleOf (lug + m) + check.angleSpread * std::clamp (normal (random), -2.0, 2.0);
            stroke.speed = check.speed * std::exp (0.2 * normal (random));
            play (model, stroke, m, check.between, leadIn + check.between * (lug + m), dry);
        }
    }

    return dry;
}

listening::Recording record (const LugCheck& check, const Surroundings& surroundings)
{
    return placed (dryRecord (check, surroundings.seed), surroundings);
}

listening::Recording dryRecord (const Strike& strike)
{
    modal::Fittings fittings;
    fittings.wires = strike.wires;
    auto setup = setUp (strike.drum, strike.tensions, fittings);
    constexpr double away = 0.08; // m
    setup.microphones = { { "near", 0.10, 0.06, strike.isHeardFromBelow ? -strike.drum.depth - away : away } };
    const auto model = std::make_shared<const engine::DrumModel> (setup);
    listening::Recording dry{ rate, {} };

    for (int i = 0; i < strike.count; ++i)
    {
        engine::Stroke stroke;
        stroke.position = strike.position;
        stroke.angle = strike.angle;
        stroke.speed = strike.speed;
        play (model, stroke, 0, strike.seconds, leadIn + strike.between * i, dry);
    }

    return dry;
}

listening::Recording record (const Strike& strike, const Surroundings& surroundings)
{
    return placed (dryRecord (strike), surroundings);
}

listening::Recording placed (listening::Recording dry, const Surroundings& surroundings)
{
    std::mt19937 random (surroundings.seed + 7777u);
    std::normal_distribution<double> normal;

    // The room: noise that dies away, from 2 ms after the direct sound, by fast convolution.
    const auto responseLength = static_cast<std::size_t> (surroundings.roomTime * rate);
    std::vector<double> response (responseLength, 0.0);
    double energy = 0.0;

    for (std::size_t i = static_cast<std::size_t> (0.002 * rate); i < responseLength; ++i)
    {
        response[i] = normal (random) * std::exp (-6.907755 * static_cast<double> (i) / static_cast<double> (responseLength));
        energy += response[i] * response[i];
    }

    for (auto& r : response)
        r *= std::sqrt (surroundings.roomShare / std::max (energy, 1.0e-30));

    response[0] += 1.0;

    std::size_t size = 1;

    while (size < dry.samples.size() + responseLength)
        size *= 2;

    Eigen::FFT<double> transform;
    std::vector<std::complex<double>> soundSpectrum, responseSpectrum;
    auto padded = dry.samples;
    padded.resize (size, 0.0);
    response.resize (size, 0.0);
    transform.fwd (soundSpectrum, padded);
    transform.fwd (responseSpectrum, response);

    for (std::size_t i = 0; i < size; ++i)
        soundSpectrum[i] *= responseSpectrum[i];

    transform.inv (padded, soundSpectrum);
    const auto length = dry.samples.size();
    std::copy_n (padded.begin(), length, dry.samples.begin());

    // Noise that falls by 3 dB an octave, as rooms hum more than they hiss: white noise through one-pole filters (a sum of them
    // makes the slope).
    listening::Recording noise{ rate, std::vector<double> (length) };
    std::array<double, 5> poles{ 0.99886, 0.99332, 0.96900, 0.86650, 0.55000 }, gains{ 0.0556, 0.0751, 0.1538, 0.3105, 0.5329 },
        states{};

    for (auto& n : noise.samples)
    {
        const double white = normal (random);
        n = 0.5362 * white;

        for (std::size_t p = 0; p < poles.size(); ++p)
        {
            states[p] = poles[p] * states[p] + gains[p] * white;
            n += states[p];
        }
    }

    const auto loudness = [] (const listening::Recording& r) { return listening::envelopeOf (r, 80.0, 4000.0, 1.0e-3); };
    const auto soundEnvelope = loudness (dry), noiseEnvelope = loudness (noise);
    double signal = 0.0;

    for (double t = leadIn; t + 0.25 < dry.seconds(); t += 0.05)
        signal = std::max (signal, soundEnvelope.mean (t, t + 0.25));

    const double noisePower = noiseEnvelope.mean (0.0, noise.seconds());
    const double scale = std::sqrt (signal / noisePower) * std::pow (10.0, -surroundings.signalToNoise / 20.0);

    for (std::size_t i = 0; i < length; ++i)
        dry.samples[i] += scale * noise.samples[i];

    return dry;
}

} // namespace synthetic
