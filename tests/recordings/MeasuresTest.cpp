// Each measure on signals whose measures are known by calculation.

#include "Measures.h"
#include "MelDistance.h"
#include "StrokeSet.h"

#include "tests/Catch.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

using namespace recordings;

namespace
{
constexpr double rate = 48000.0;

/** Silence for 50 ms, then `signal (t)` for as long as a stroke. */
template <class Signal>
listening::Recording recordingOf (Signal signal)
{
    listening::Recording recording{ rate, std::vector<double> (2400, 0.0) };
    for (int i = 0; i < static_cast<int> (strokeTime * rate); ++i)
        recording.samples.push_back (signal (i / rate));
    return recording;
}

double sine (double frequency, double t)
{
    return std::sin (2.0 * std::numbers::pi * frequency * t);
}

/** Amplitude that falls by 60 dB in this time. */
double fading (double t60, double t)
{
    return std::pow (10.0, -3.0 * t / t60);
}

/** White noise, the same every time. */
struct Noise
{
    std::mt19937 generator{ 1 };
    std::normal_distribution<double> distribution;
    double operator()() { return distribution (generator); }
};
} // namespace

TEST_CASE ("A Butterworth band halves at its corners, falls by 48 dB an octave run both ways, and does not delay", "[recordings]")
{
    Samples click (8192, 0.0);
    click[4000] = 1.0;
    const auto band = butterworthBand (click, rate, 1000.0, 2000.0);

    for (int i = 1; i < 1000; ++i)
        CHECK (band[4000 + static_cast<std::size_t> (i)] == Approx (band[4000 - static_cast<std::size_t> (i)]).margin (1.0e-9));

    const auto gainAt = [&] (double frequency)
    {
        std::complex<double> sum = 0.0;
        for (std::size_t i = 0; i < band.size(); ++i)
            sum += band[i] * std::polar (1.0, -2.0 * std::numbers::pi * frequency * static_cast<double> (i) / rate);
        return std::abs (sum);
    };
    CHECK (gainAt (1414.0) == Approx (1.0 / std::pow (1.0 + 1.0 / 16.0, 2)).epsilon (0.001));
    CHECK (gainAt (1000.0) == Approx (0.5).epsilon (0.01));
    CHECK (gainAt (2000.0) == Approx (0.5).epsilon (0.01));
    CHECK (20.0 * std::log10 (gainAt (250.0)) == Approx (-96.0).margin (0.5));
}

TEST_CASE ("A stroke begins 2 ms before it is louder than 3 % of its peak", "[recordings]")
{
    const auto stroke = strokeOf (recordingOf ([] (double t) { return t < 0.01 ? 0.02 : 1.0; }));
    REQUIRE (stroke.samples.size() == static_cast<std::size_t> (strokeTime * rate));
    CHECK (stroke.samples[95] == 0.02);
    CHECK (stroke.samples[96] == 1.0);
}

TEST_CASE ("Octaves are energies against those from 125 to 500 Hz", "[recordings]")
{
    // Sines in the middle of each octave, the one at 3 kHz a tenth as loud as the two at the bottom together.
    const auto measures = measure (strokeOf (recordingOf (
        [] (double t) { return fading (0.4, t) * (sine (176.8, t) + sine (353.6, t) + std::sqrt (0.2) * sine (2828.0, t)); })));
    CHECK (measures.bands[0].level == Approx (-3.0).margin (0.3));
    CHECK (measures.bands[1].level == Approx (-3.0).margin (0.3));
    CHECK (measures.bands[octave2k].level == Approx (-10.0).margin (0.3));
    CHECK (measures.bands[octave8k].level < -40.0);
}

TEST_CASE ("T60 is that of a fading tone or noise, in each octave", "[recordings]")
{
    Noise noise;
    const auto ofNoise = measure (strokeOf (recordingOf ([&] (double t) { return fading (0.35, t) * noise(); })));

    for (const auto octave : { octave1k, octave2k, octave4k, octave8k })
    {
        CAPTURE (octaves[octave]);
        const double middle = std::numbers::sqrt2 * octaves[octave];
        const auto ofTone = measure (strokeOf (recordingOf ([&] (double t) { return fading (0.35, t) * sine (middle, t); })));
        REQUIRE (ofTone.bands[octave].t60);
        CHECK (*ofTone.bands[octave].t60 == Approx (0.35).epsilon (0.02));

        // 5 ms of a 1 kHz wide noise have some ten degrees of freedom: their energy scatters by 2 dB of the 30 dB that are
        // measured.
        REQUIRE (ofNoise.bands[octave].t60);
        CHECK (*ofNoise.bands[octave].t60 == Approx (0.35).epsilon (0.1));
    }

    const auto lasting = measure (strokeOf (recordingOf ([&] (double) { return noise(); })));
    CHECK_FALSE (lasting.bands[octave4k].t60);
}

TEST_CASE ("Attack and peak tell an early click from a swell", "[recordings]")
{
    // A tone at 6 kHz: 5 ms at a fifth of the amplitude, then silence to 20 ms, then full.
    const auto late = measure (strokeOf (
        recordingOf ([] (double t) { return sine (6000.0, t) * (t < 0.005  ? 0.2
                                                                : t < 0.02 ? 0.0
                                                                           : fading (0.3, t)); })));
    CHECK (late.bands[octave4k].attack == Approx (20.0 * std::log10 (0.2 / fading (0.3, 0.0225))).margin (0.3));
    CHECK (late.bands[octave4k].peakTime == Approx (leadTime + 0.020).margin (0.001));

    const auto early = measure (strokeOf (recordingOf ([] (double t) { return sine (6000.0, t) * fading (0.1, t); })));
    CHECK (early.bands[octave4k].attack == Approx (0.0).margin (0.3));
    CHECK (early.bands[octave4k].peakTime == Approx (leadTime).margin (0.0011));
}

TEST_CASE ("A gliding sine glides by what it was made with", "[recordings]")
{
    // 135 Hz, 10 % sharp at first, which fades with 0.1 s. From 12 to 45 ms it is 7.5 % in the
    // mean: phase = ∫ 2π 135 (1 + 0.1 exp (-t/0.1)).
    const auto signal = [] (double t)
    { return fading (2.0, t) * std::sin (2.0 * std::numbers::pi * 135.0 * (t + 0.01 * (1.0 - std::exp (-t / 0.1)))); };
    const auto glide = glideOf (strokeOf (recordingOf (signal)), 90.0, 220.0);
    REQUIRE (glide);
    CHECK (glide->rest == Approx (135.0).epsilon (0.005));
    CHECK (glide->cents() == Approx (1200.0 * std::log2 (1.075)).margin (10.0));

    const auto steady =
        glideOf (strokeOf (recordingOf ([] (double t) { return fading (2.0, t) * sine (135.0, t); })), 90.0, 220.0);
    REQUIRE (steady);
    CHECK (steady->cents() == Approx (0.0).margin (5.0));
}

TEST_CASE ("Comparisons take one stroke's octaves from the other's", "[recordings]")
{
    const auto stroke = [] (double high)
    {
        return std::vector<listening::Recording>{ strokeOf (
            recordingOf ([high] (double t) { return fading (0.4, t) * (sine (250.0, t) + high * sine (5657.0, t)); })) };
    };
    const auto difference = compare (medianMeasures (stroke (0.2)), medianMeasures (stroke (0.1)));
    CHECK (difference.levels[octave4k] == Approx (20.0 * std::log10 (2.0)).margin (0.05));
    CHECK (difference.loudness == Approx (10.0 * std::log10 (1.04 / 1.01)).margin (0.02));
    CHECK (median ({ 3.0, 1.0, 2.0 }) == 2.0);
    CHECK (median ({ 4.0, 1.0, 2.0, 3.0 }) == 2.5);
}

TEST_CASE ("Spectrograms do not know gain, and follow a tone's decay in its own band", "[recordings]")
{
    const auto spectrogramOf = [] (double gain)
    { return melSpectrogram (strokeOf (recordingOf ([&] (double t) { return gain * fading (0.6, t) * sine (1000.0, t); }))); };
    const auto spectrogram = spectrogramOf (1.0);
    CHECK (distance (spectrogram, spectrogramOf (0.01)) == Approx (0.0).margin (1.0e-6));

    // 1000 mel are 1000 Hz; bands from 60 to 16000 Hz are 71 mel apart (O'Shaughnessy's scale, from memory).
    const auto& early = spectrogram.levels[10];
    const auto loudest = static_cast<std::size_t> (std::max_element (early.begin(), early.end()) - early.begin());
    CHECK (loudest == 12);
    // 60 dB in 0.6 s are 20 dB in 40 steps of 5 ms.
    CHECK (early[loudest] - spectrogram.levels[50][loudest] == Approx (20.0).margin (0.1));
}

TEST_CASE ("The distance of spectrograms is the root mean square of what differs above the floor", "[recordings]")
{
    const auto even = [] (double level)
    {
        return MelSpectrogram{ { std::vector<double> (MelSpectrogram::bands, level),
                                 std::vector<double> (MelSpectrogram::bands, MelSpectrogram::floor) } };
    };
    CHECK (distance (even (-10.0), even (-13.0)) == Approx (3.0));
    auto partly = even (-10.0);
    partly.levels[0][0] = -10.0 + std::sqrt (48.0);
    CHECK (distance (even (-10.0), partly) == Approx (1.0));
}

TEST_CASE ("Distances to kits are those to the nearest", "[recordings]")
{
    const auto spectrogramOf = [] (double t60)
    {
        Noise noise;
        return melSpectrogram (strokeOf (recordingOf ([&] (double t) { return fading (t60, t) * noise(); })));
    };
    const std::vector<MelSpectrograms> kits{ { spectrogramOf (0.3) }, { spectrogramOf (0.6) } };
    CHECK (distanceToNearest (spectrogramOf (0.3), kits) == Approx (0.0).margin (1.0e-9));
    CHECK (relativeDistance ({ spectrogramOf (0.3) }, kits) == Approx (0.0).margin (1.0e-9));
    const auto between = relativeDistance ({ spectrogramOf (0.42) }, kits);
    CHECK (between > 0.3);
    CHECK (between < 0.8);
}

TEST_CASE ("The A-weighting has the standard's values", "[recordings]")
{
    // IEC 61672-1, table of the design goals (from memory).
    constexpr std::pair<double, double> values[]{ { 63.0, -26.2 }, { 125.0, -16.1 }, { 250.0, -8.6 }, { 500.0, -3.2 },
                                                  { 1000.0, 0.0 }, { 2000.0, 1.2 },  { 4000.0, 1.0 }, { 8000.0, -1.1 } };
    for (const auto& [frequency, level] : values)
    {
        CAPTURE (frequency);
        CHECK (20.0 * std::log10 (recordings::aWeighting (frequency)) == Approx (level).margin (0.1));
    }
}
