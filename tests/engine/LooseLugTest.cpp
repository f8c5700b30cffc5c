#include "tests/Catch.h"

#include "Engine/Drum.h"
#include "Modal/Tuning.h"
#include "Modal/Units.h"

#include <algorithm>
#include <cmath>
#include <complex>

namespace
{

constexpr double sampleRate = 48000.0;

/** The wire-free drum's sound above the head after one stroke. */
std::vector<float> renderStroke (const modal::DrumModes& modes, const modal::Tensions& tensions, double angle)
{
    engine::DrumSetup setup;
    setup.modes = modes;
    setup.tensions = tensions;
    setup.wires.on = false;
    setup.sampleRate = sampleRate;
    setup.microphones = { { .name = "above", .x = 0.06, .y = 0.09, .z = 0.05 } };

    engine::Drum drum (std::make_shared<const engine::DrumModel> (setup));
    drum.strike (engine::Stroke{ .position = 0.6, .angle = angle, .speed = 1.0 });

    std::vector<float> sound (static_cast<std::size_t> (sampleRate));
    float* outputs[]{ sound.data() };
    drum.process (outputs, static_cast<int> (sound.size()));
    return sound;
}

/** Magnitude at a frequency of the sound × exp (undamping·t) from `start` s on, Hann window. Undoing part of the decay narrows
 * the lines. */
double lineAt (const std::vector<float>& sound, double frequency, double undamping, double start)
{
    const auto first = static_cast<std::size_t> (start * sampleRate);
    const auto count = static_cast<double> (sound.size() - first);
    std::complex<double> sum;

    for (std::size_t i = first; i < sound.size(); ++i)
    {
        const double n = static_cast<double> (i - first), t = n / sampleRate;
        const double window = 0.5 - 0.5 * std::cos (modal::units::twoPi * n / count);
        sum += window * std::exp (undamping * t) * sound[i] * std::polar (1.0, -modal::units::twoPi * frequency * t);
    }

    return std::abs (sum);
}

/** Where the line is highest within ±width of a frequency. */
double peakNear (const std::vector<float>& sound, double frequency, double width, double undamping)
{
    double best = 0.0, at = frequency;

    for (double f = frequency - width; f <= frequency + width; f += 0.05)
        if (const double height = lineAt (sound, f, undamping, 0.1); height > best)
        {
            best = height;
            at = f;
        }

    return at;
}

} // namespace

TEST_CASE ("One loose lug beats in a rendered stroke at the rate that the modes predict", "[engine][uneven]")
{
    modal::DrumSpec drum;
    drum.lugs = 8;
    modal::Tensions tensions{ 3600.0, 3200.0 };
    tensions.batterLugs = { -0.45, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0 };
    const auto modes = modal::solve (drum, tensions);

    // The lowest two (1,1) partners: the loose lug lowers the one that moves most beside it.
    std::vector<modal::Mode> rocking;
    std::copy_if (modes.modes.begin(), modes.modes.end(), std::back_inserter (rocking),
                  [] (const auto& mode) { return mode.m == 1; });
    REQUIRE (rocking.size() >= 2);
    const double low = rocking[0].frequency, high = rocking[1].frequency;
    REQUIRE (high - low > 8.0);

    const double undamping = 0.8 * rocking[0].decay.total();
    const auto sound = renderStroke (modes, tensions, 0.7);
    const double width = 0.4 * (high - low);
    const double heardLow = peakNear (sound, low, width, undamping), heardHigh = peakNear (sound, high, width, undamping);

    WARN ("loose lug: predicted " << low << " and " << high << " Hz, beats at " << high - low << " a second; heard " << heardLow
                                  << " and " << heardHigh << " Hz, " << heardHigh - heardLow << " a second");
    CHECK (heardHigh - heardLow == Approx (high - low).epsilon (0.03));

    // A stroke on the nodal line of one partner leaves only the other: no beat.
    const auto onAxis = renderStroke (modes, tensions, 0.0);
    CHECK (lineAt (onAxis, high, undamping, 0.1) < 0.1 * lineAt (onAxis, low, undamping, 0.1));
}
