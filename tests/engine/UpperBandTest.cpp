// The upper band against modes solved to a higher frequency.

#include "TestDrum.h"
#include "ThirdOctaves.h"

#include "Engine/FeedbackDelayNetwork.h"
#include "Engine/Filters.h"
#include "Engine/UpperBand.h"

#include "tests/Catch.h"

#include <boost/math/special_functions/bessel.hpp>

#include <algorithm>
#include <cmath>
#include <complex>
#include <sstream>

namespace
{

using Complex = std::complex<double>;

/** A batter head in an infinite wall over a closed shell, solved to 5 kHz, in air too thin to load the film: the
   modes know the air's load only as it is where they ring. */
engine::DrumSetup headInWall()
{
    modal::DrumSpec spec;
    spec.bottom = modal::Bottom::closed;
    spec.surround = modal::Surround::baffled;
    spec.air.density = 0.01;
    const modal::Tensions tensions{ 2500.0, 0.0 };
    auto setup = engine::setUp (spec, tensions, modal::solve (spec, tensions, { .highestFrequency = 5000.0 }), {});
    setup.microphones = { { "axis", 0.0, 0.0, 15.0 } };
    return setup;
}

} // namespace

// The modes of the head and the Rayleigh integral over them are independent of the formula for the direct sound. At the complex
// frequency s = iω + β their sum is the Laplace transform of the impulse response, weighted with exp(-βt), which suppresses waves
// reflected at the rim (1.4 ms and later).
TEST_CASE ("until the first reflection at the rim, the sum over a head's modes agrees with the formula for a point force",
           "[engine][upper]")
{
    const auto setup = headInWall();
    const auto pressure = engine::pressureAt (setup.modes, setup.microphones.front());
    const auto band = engine::upperBandOf (setup, { pressure });
    double worst = 0.0;
    for (const double place : { 0.0, 0.3 })
    {
        const double r = place * setup.modes.radius, beta = 3000.0;
        const auto shape = setup.modes.batterShapeAt (r, 0.0);
        const auto direct = band.directPath (0, r, 0.0, setup.modes.air, setup.microphones.front());
        for (const double frequency : { 500.0, 700.0, 1000.0, 1400.0, 2000.0 })
        {
            const Complex s (beta, modal::units::twoPi * frequency);
            Complex sum = 0.0;
            for (int k = 0; k < setup.modes.size(); ++k)
            {
                const auto& mode = setup.modes.modes[static_cast<std::size_t> (k)];
                const double omega = mode.angularFrequency(), decay = mode.decay.total();
                // A stick pushes down, against the head's positive direction.
                sum -= shape[k] * (pressure.acceleration[k] * s * s + pressure.velocity[k] * s) /
                       (s * s + 2.0 * decay * s + omega * omega);
            }
            const double error = std::abs (sum / direct.gain - 1.0);
            CAPTURE (place, frequency, sum.real(), sum.imag(), direct.gain);
            CHECK (error < 0.08); // 5.8 % measured
            worst = std::max (worst, error);
        }
    }
    WARN ("largest difference " << 100.0 * worst << " %");
}

TEST_CASE ("a feedback delay network has the level it states and the decay it was set to", "[engine][upper]")
{
    using Network = engine::FeedbackDelayNetwork<double>;
    const double rate = 48000.0, low = 2000.0, high = 4000.0, lowRate = 40.0, highRate = 60.0;
    Network network (rate);
    network.set (1.0e-3, { low, lowRate }, { high, highRate }, rate);
    std::vector<double> response;
    for (int i = 0; i < static_cast<int> (0.5 * rate); ++i)
    {
        Network::Signs push{};
        if (i == 0)
            push.fill (1.0 / std::sqrt (8.0));
        const auto lines = network.next (push);
        response.push_back (lines[0] - lines[1] + lines[2] - lines[3] + lines[4] - lines[5] + lines[6] - lines[7]);
    }
    double sum = 0.0, expected = 0.0;
    for (const double centre : testdrum::thirdOctaveCentres (2900.0, 8100.0))
    {
        const double width = centre * (std::pow (2.0, 1.0 / 6.0) - std::pow (2.0, -1.0 / 6.0));
        sum += testdrum::decibels (testdrum::bandEnergy (response, rate, centre, 2.0) * rate * rate / width) / 5.0;
        const double decay = lowRate + (highRate - lowRate) * (centre - low) / (high - low);
        expected += testdrum::decibels (network.loudness() / decay) / 5.0;
    }
    INFO (sum << " dB, expected " << expected);
    CHECK (std::abs (sum - expected) < 1.5);

    // 20 ms apart the energy falls by exp(-4 · rate · 10 ms); the band around the crossover is louder and slower.
    const auto energy = [&] (double from)
    {
        double total = 0.0;
        for (auto i = static_cast<std::size_t> (from * rate); i < static_cast<std::size_t> ((from + 0.02) * rate); ++i)
            total += response[i] * response[i];
        return total;
    };
    const double fall = std::log (energy (0.03) / energy (0.05)) / (2.0 * 0.02);
    CHECK (fall > lowRate);
    CHECK (fall < 2.0 * highRate);
}

// The mean of a wave over a round patch, 2 J1(ka)/ka, against Boost's Bessel function.
TEST_CASE ("a tip drives waves shorter than its patch less, a wide one from a lower frequency on", "[engine][upper]")
{
    auto setup = testdrum::snare (2000.0);
    setup.batterBending = modal::HeadConstruction{}.bendingStiffness();
    double former = 1.0e9;
    for (const double halfWidth : { 1.0e-3, 2.5e-3, 6.0e-3 })
    {
        setup.stick.tipHalfWidth = halfWidth;
        const double corner = engine::upperBandOf (setup, {}).tipCorner, omega = modal::units::twoPi * corner;
        // Tk² + Dk⁴ = σω²
        const double T = setup.tensions.batter, D = setup.batterBending;
        const double k = std::sqrt ((std::sqrt (T * T + 4.0 * D * setup.batterDensity * omega * omega) - T) / (2.0 * D));
        CAPTURE (halfWidth, corner);
        CHECK (2.0 * boost::math::cyl_bessel_j (1, k * halfWidth) / (k * halfWidth) == Approx (std::sqrt (0.5)).epsilon (2.0e-3));
        CHECK (corner < former);
        former = corner;
    }
    setup.stick.groups = 4;
    CHECK (std::isinf (engine::upperBandOf (setup, {}).tipCorner));
}

TEST_CASE ("a one-pole low-pass passes low tones and has half the power at its corner", "[engine][upper]")
{
    const double rate = 48000.0;
    for (const double frequency : { 100.0, 6000.0 })
    {
        engine::OnePoleLowPasses<double, 1> filter;
        filter.set (6000.0, rate);
        double in = 0.0, out = 0.0;
        for (int i = 0; i < 48000; ++i)
        {
            const double x = std::sin (modal::units::twoPi * frequency * i / rate), y = filter.next ({ x })[0];
            in += x * x;
            out += y * y;
        }
        CAPTURE (frequency);
        CHECK (out / in == Approx (frequency < 1000.0 ? 1.0 : 0.5).epsilon (2.0e-3));
    }
}

// The upper band of a drum solved to 2 kHz represents modes that it does not have. A drum solved to 4 kHz has them and gives
// their level and decay.
TEST_CASE ("a drum solved to 2 kHz predicts the level and decay of its modes to 4 kHz", "[engine][upper]")
{
    const auto upperBand = [] (double highest)
    {
        auto setup = testdrum::snare (highest);
        setup.microphones = engine::defaultMicrophones (setup.modes.depth);
        std::vector<engine::ModalPressure> pressures;
        for (const auto& microphone : setup.microphones)
            pressures.push_back (engine::pressureAt (setup.modes, microphone));
        return engine::upperBandOf (setup, pressures);
    };
    const auto played = upperBand (2000.0), fine = upperBand (4000.0);
    const double middle = fine.heads[0].decay.frequency;
    std::ostringstream table;
    for (std::size_t head = 0; head < 2; ++head)
    {
        const auto &ours = played.heads[head], &theirs = fine.heads[head];
        table << (head == 0 ? " batter" : " resonant") << ", decay at " << middle << " Hz: " << ours.decayAt (middle) << " and "
              << theirs.decayAt (middle) << " 1/s;";
        CHECK (ours.decayAt (middle) == Approx (theirs.decayAt (middle)).epsilon (0.25));
        for (std::size_t m = 0; m < 3; ++m)
        {
            const double error = testdrum::decibels (ours.tailPower[m] / theirs.tailPower[m]);
            table << " microphone " << m << ": " << error << " dB;";
            CHECK (std::abs (error) < 3.0);
        }
        for (const double place : { 0.0, 0.25, 0.5, 0.75, 0.9 })
        {
            const double error = 2.0 * testdrum::decibels (ours.tailGain (place) / theirs.tailGain (place));
            table << " at " << place << ": " << error << " dB;";
            CHECK (std::abs (error) < 3.0);
        }
    }
    WARN ("level times decay from 1.2 to 2 kHz over that from 2.4 to 4 kHz:" << table.str());
}

// The upper band takes no energy from the drum, so it must be small. The radiated energy is estimated as if the pressure at the
// distant microphone held in all directions.
TEST_CASE ("what is radiated above the modes is a small part of a stroke's energy", "[engine][upper]")
{
    auto setup = testdrum::snare (2000.0);
    setup.microphones = { engine::defaultMicrophones (setup.modes.depth)[2] };
    engine::Drum drum (std::make_shared<engine::DrumModel> (setup));
    engine::Stroke stroke;
    stroke.speed = 9.0;
    drum.strike (stroke);
    const auto sound = testdrum::listen (drum, 24000);
    double square = 0.0;
    for (const double centre : testdrum::thirdOctaveCentres (2500.0, 17000.0))
        // Of both signs of the frequency.
        square += 2.0 * std::pow (engine::fullScalePressure, 2) * testdrum::bandEnergy (sound, setup.sampleRate, centre, 2.0);
    const auto& at = setup.microphones.front();
    const double distance = std::hypot (at.x, at.y, at.z), air = setup.modes.air.density * setup.modes.air.soundSpeed;
    const double radiated = 4.0 * modal::units::pi * distance * distance * square / air;
    const double brought = 0.5 * setup.stick.rigidMassAt (setup.stick.tipPlace) * stroke.speed * stroke.speed;
    WARN ("radiated above the modes " << 100.0 * radiated / brought << " % of the stick's energy");
    CHECK (radiated > 0.0);
    CHECK (radiated < 0.02 * brought);
}
