// The drum as played against a finer solution of the same physics, and sample rates against each other.

#include "TestDrum.h"
#include "ThirdOctaves.h"

#include "tests/Catch.h"

#include <algorithm>
#include <cmath>
#include <iomanip>
#include <sstream>

namespace
{

constexpr double seconds = 0.25;

struct Fineness
{
    double rate, highest; ///< Hz
    int points;           ///< contacts a strand
};

/** Energy in each band and of the whole, full scale squared times seconds, summed over strokes: wires rattle chaotically, so that
   one stroke's bands differ by themselves. */
struct Spectrum
{
    std::vector<double> bands;
    double whole = 0.0;
};

const std::vector<double>& centres()
{
    static const auto list = testdrum::thirdOctaveCentres (160.0, 5100.0);
    return list;
}

Spectrum spectrumOf (const Fineness& fineness, bool wires)
{
    auto setup = testdrum::snare (fineness.highest, fineness.rate);
    setup.wires.on = wires;
    setup.wireDetail.points = fineness.points;
    setup.microphones = { engine::defaultMicrophones (setup.modes.depth).front() };
    const auto model = std::make_shared<engine::DrumModel> (setup);
    Spectrum spectrum{ std::vector<double> (centres().size(), 0.0), 0.0 };
    for (const double position : { 0.15, 0.25, 0.4, 0.6 })
    {
        engine::Drum drum (model);
        engine::Stroke stroke;
        stroke.position = position;
        drum.strike (stroke);
        const auto sound = testdrum::listen (drum, static_cast<int> (seconds * fineness.rate));
        for (std::size_t i = 0; i < centres().size(); ++i)
        {
            const double energy = testdrum::bandEnergy (sound, fineness.rate, centres()[i], 2.0 / seconds);
            spectrum.bands[i] += energy;
            spectrum.whole += energy;
        }
    }
    return spectrum;
}

/** Difference of two spectra, dB. */
struct Distance
{
    double level = 0.0, mean = 0.0, worst = 0.0;
    std::string text;
};

/** Bands up to `highest` Hz count, the table shows all. */
Distance distance (const Spectrum& played, const Spectrum& reference, double highest)
{
    Distance d;
    std::ostringstream table;
    table << std::fixed << std::setprecision (1);
    int counted = 0;
    double whole[2] = {};
    for (std::size_t i = 0; i < centres().size(); ++i)
    {
        const double difference = testdrum::decibels (played.bands[i] / reference.bands[i]);
        table << " " << std::lround (centres()[i]) << ":" << difference;
        if (centres()[i] > highest)
            continue;
        whole[0] += played.bands[i];
        whole[1] += reference.bands[i];
        d.mean += std::abs (difference);
        d.worst = std::max (d.worst, std::abs (difference));
        ++counted;
    }
    d.mean /= counted;
    d.level = testdrum::decibels (whole[0] / whole[1]);
    std::ostringstream out;
    out << std::fixed << std::setprecision (2) << "level " << d.level << " dB, third octaves to " << highest << " Hz mean "
        << d.mean << " dB, worst " << d.worst << " dB; each (Hz:dB)" << table.str();
    d.text = out.str();
    return d;
}

} // namespace

TEST_CASE ("a drum converges to one with eight times the sample rate, twice the band and twice the contacts")
{
    const Fineness reference{ 192000.0, 3000.0, 16 };
    for (const bool wires : { false, true })
    {
        const auto fine = spectrumOf (reference, wires);
        const auto coarse = distance (spectrumOf ({ 24000.0, 1500.0, 8 }, wires), fine, 1300.0);
        const auto usual = distance (spectrumOf ({ 48000.0, 2000.0, 8 }, wires), fine, 1700.0);
        WARN ((wires ? "wires on" : "wires off")
              << "\n  24 kHz, modes to 1.5 kHz: " << coarse.text << "\n  48 kHz, modes to 2 kHz: " << usual.text);
        // Measured mean and worst: 0.3 and 0.8 dB at 24 kHz, 0.1 and 0.3 dB at 48 kHz, with wires 0.6 and 1.8, 0.4 and 1.2 dB;
        // with wires at 1 N 1.3 and 3.0, 1.0 and 3.0 dB. Strands that lose little rattle on at random, and four strokes are few.
        // Without the local compliance under the stick it would be 2.9 and 6.2 dB, 1.8 and 3.5 dB.
        CHECK (std::abs (coarse.level) < (wires ? 0.8 : 0.5));
        CHECK (std::abs (usual.level) < (wires ? 0.8 : 0.5));
        CHECK (coarse.mean < (wires ? 1.7 : 1.2));
        CHECK (usual.mean < (wires ? 1.4 : 1.0));
        CHECK (coarse.worst < (wires ? 3.5 : 3.0));
        // In the last third octave below the band's end rattling contacts miss the finer head most.
        CHECK (usual.worst < (wires ? 3.5 : 2.5));
        // With wires the rest is the random part of rattling.
        if (! wires)
            CHECK (usual.mean < coarse.mean);
    }
}

TEST_CASE ("a stroke has the same third-octave levels at every sample rate from 22.05 to 192 kHz")
{
    for (const bool wires : { false, true })
    {
        const auto finest = spectrumOf ({ 192000.0, 1500.0, 8 }, wires);
        for (const double rate : { 22050.0, 32000.0, 44100.0, 48000.0, 88200.0, 96000.0 })
        {
            const auto played = spectrumOf ({ rate, 1500.0, 8 }, wires);
            const auto d = distance (played, finest, 5100.0);
            WARN (rate << " Hz, wires " << (wires ? "on: " : "off: ") << d.text);
            CHECK (std::abs (d.level) < 0.5);
            // The sound above the modes (1.5 kHz here) has the same statistics, not the same samples.
            CHECK (d.mean < 1.2);
            if (! wires)
                CHECK (distance (played, finest, 1300.0).mean < 0.5);
        }
    }
}
