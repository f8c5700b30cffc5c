#include "SyntheticDrum.h"

#include "Engine/Drum.h"
#include "Fitting/common/Discrepancy.h"
#include "Fitting/common/Errors.h"
#include "Listening/Envelope.h"

#include "Modal/Units.h"
#include "Modal/heads/OneHead.h"

#include <Eigen/Cholesky>
#include <unsupported/Eigen/FFT>

#include <algorithm>
#include <cmath>
#include <complex>
#include <random>
#include <utility>

namespace synthetic
{
namespace
{

constexpr double rate = 48000.0;
constexpr double highestMode = 2400.0; // Hz
constexpr int block = 480;

/** Moves modes off the model's. */
void deviate (modal::DrumModes& modes, const Deviations& deviations)
{
    constexpr double same = 0.03; // relative: partners that uneven lugs split lie nearer
    std::mt19937 random (deviations.seed);
    std::normal_distribution<double> normal;
    std::vector<modal::Mode> kinds;
    std::vector<std::vector<std::size_t>> members;

    for (std::size_t i = 0; i < modes.modes.size(); ++i)
    {
        const auto& mode = modes.modes[i];
        std::size_t k = 0;

        while (k < kinds.size() && ! (kinds[k].m == mode.m && kinds[k].n == mode.n && kinds[k].isAirMode == mode.isAirMode &&
                                      std::abs (mode.frequency / kinds[k].frequency - 1.0) < same && members[k].size() < 2))
            ++k;

        if (k == kinds.size())
        {
            kinds.push_back (mode);
            members.emplace_back();
        }

        members[k].push_back (i);
    }

    const auto count = static_cast<Eigen::Index> (kinds.size());
    const Eigen::VectorXd drawn = Eigen::VectorXd::NullaryExpr (count, [&] { return normal (random); });
    const Eigen::MatrixXd root = fitting::errorCorrelation (kinds).llt().matrixL();
    const Eigen::VectorXd off = deviations.cents * (root * drawn);

    for (std::size_t k = 0; k < kinds.size(); ++k)
    {
        const double higher = std::exp (off[static_cast<Eigen::Index> (k)] / fitting::centsPerShare);
        const double faster = std::exp (deviations.decay * std::clamp (normal (random), -2.0, 2.0));

        for (const auto i : members[k])
        {
            auto& mode = modes.modes[i];
            mode.frequency *= higher;

            for (auto part : { &modal::Decay::radiation, &modal::Decay::film, &modal::Decay::bending, &modal::Decay::ply,
                               &modal::Decay::edge, &modal::Decay::air, &modal::Decay::muffling })
                mode.decay.*part *= faster;
        }
    }
}

/** The drum as the instrument plays it. */
modal::DrumModes modesOf (const modal::DrumSpec& drum, const modal::Tensions& tensions, const Deviations& deviations)
{
    auto modes = modal::solve (drum, tensions, { .highestFrequency = highestMode });

    if (deviations.cents > 0.0 || deviations.decay > 0.0)
        deviate (modes, deviations);

    return modes;
}

engine::DrumSetup setUp (const modal::DrumSpec& drum, const modal::Tensions& tensions, const modal::Fittings& fittings,
                         const Deviations& deviations)
{
    auto setup = engine::setUp (drum, tensions, modesOf (drum, tensions, deviations), fittings);
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

/** With the head that is tapped as batter. */
modal::DrumSpec tappedDrum (const LugCheck& check)
{
    auto drum =
        check.otherTension > 0.0 ? modal::withHeadOnTop (check.drum, check.side) : modal::asTapped (check.drum, check.side);

    if (check.patch)
    {
        drum.muffling.push_back (*check.patch);
        drum.muffling.back().head = modal::HeadSide::batter;
    }

    return drum;
}

/** Keeps what lies between two frequencies (Hz), second order (Butterworth) at each. */
void keepBand (std::vector<double>& samples, double low, double high)
{
    for (const bool isHighPass : { true, false })
    {
        const double k = std::tan (modal::units::pi * (isHighPass ? low : high) / rate);
        const double norm = 1.0 / (1.0 + std::sqrt (2.0) * k + k * k);
        const double first = isHighPass ? norm : k * k * norm, sign = isHighPass ? -2.0 : 2.0;
        const double back1 = 2.0 * (k * k - 1.0) * norm, back2 = (1.0 - std::sqrt (2.0) * k + k * k) * norm;
        double x1 = 0.0, x2 = 0.0, y1 = 0.0, y2 = 0.0;

        for (auto& sample : samples)
        {
            const double x = sample;
            sample = first * (x + sign * x1 + x2) - back1 * y1 - back2 * y2;
            x2 = std::exchange (x1, x);
            y2 = std::exchange (y1, sample);
        }
    }
}

/** Gain that drops within milliseconds where the sound is loud and recovers slowly. */
void levelAutomatically (std::vector<double>& samples)
{
    constexpr double mostDecibels = 12.0, recovery = 6.0, fall = 0.003, smoothing = 0.005; // dB, dB/s, s, s
    double loudest = 0.0;

    for (const double sample : samples)
        loudest = std::max (loudest, std::abs (sample));

    const double target = 0.25 * loudest;
    double power = 0.0, gain = mostDecibels;

    for (auto& sample : samples)
    {
        power += (sample * sample - power) / (smoothing * rate);
        const double wanted = std::min (mostDecibels, 20.0 * std::log10 (target / std::sqrt (2.0 * power + 1.0e-20)));
        gain = wanted < gain ? gain + (wanted - gain) / (fall * rate) : gain + recovery / rate;
        sample *= std::pow (10.0, gain / 20.0);
    }
}

/** Noise as of a lossy code, in proportion to the level of each band and moment. */
void addCodeNoise (std::vector<double>& samples, unsigned seed)
{
    constexpr std::size_t window = 2048, hop = window / 2, band = 8;
    constexpr double below = 18.0; // dB
    std::mt19937 random (seed);
    std::normal_distribution<double> normal;
    Eigen::FFT<double> transform;
    std::vector<double> frame (window), noise (samples.size(), 0.0);
    std::vector<std::complex<double>> spectrum;
    const auto shape = [] (std::size_t i) { return std::sin (modal::units::pi * (static_cast<double> (i) + 0.5) / window); };

    for (std::size_t from = 0; from + window <= samples.size(); from += hop)
    {
        for (std::size_t i = 0; i < window; ++i)
            frame[i] = shape (i) * samples[from + i];

        transform.fwd (spectrum, frame);
        spectrum.resize (window);

        for (std::size_t first = 1; first + band <= window / 2; first += band)
        {
            double power = 0.0;

            for (std::size_t k = first; k < first + band; ++k)
                power += std::norm (spectrum[k]) / band;

            const double size = std::sqrt (0.5 * power) * std::pow (10.0, -below / 20.0);

            for (std::size_t k = first; k < first + band; ++k)
            {
                spectrum[k] = size * std::complex<double> (normal (random), normal (random));
                spectrum[window - k] = std::conj (spectrum[k]);
            }
        }

        spectrum[0] = spectrum[window / 2] = 0.0;
        transform.inv (frame, spectrum);

        for (std::size_t i = 0; i < window; ++i)
            noise[from + i] += shape (i) * frame[i];
    }

    for (std::size_t i = 0; i < samples.size(); ++i)
        samples[i] += noise[i];
}

} // namespace

double playedTapNote (const LugCheck& check)
{
    const auto modes = modesOf (tappedDrum (check), { check.tension, check.otherTension, check.lugs, {} }, check.deviations);
    double sum = 0.0;
    int partners = 0;

    for (const auto& mode : modes.modes)
        if (mode.m == 1 && ! mode.isAirMode && partners < 2)
        {
            sum += mode.frequency;
            ++partners;
        }

    return sum / partners;
}

listening::Recording throughTelephone (listening::Recording recording, unsigned seed)
{
    keepBand (recording.samples, 90.0, 7000.0);
    levelAutomatically (recording.samples);
    addCodeNoise (recording.samples, seed);
    return recording;
}

listening::Recording dryRecord (const LugCheck& check, unsigned seed)
{
    const auto drum = tappedDrum (check);
    modal::Fittings fittings;
    fittings.wires.on = false;
    auto setup = setUp (drum, { check.tension, check.otherTension, check.lugs, {} }, fittings, check.deviations);

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
    auto setup = setUp (strike.drum, strike.tensions, fittings, strike.deviations);
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

    return surroundings.isByTelephone ? throughTelephone (std::move (dry), surroundings.seed) : dry;
}

} // namespace synthetic
