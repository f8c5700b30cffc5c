#include "TestDrum.h"

#include "tests/Catch.h"

#include "Modal/InputError.h"

#include <algorithm>
#include <cmath>
#include <random>
#include <utility>

namespace
{

engine::DrumSetup heard (engine::DrumSetup setup)
{
    setup.microphones = { engine::defaultMicrophones (setup.modes.depth).front() };
    return setup;
}

engine::DrumSetup retuned (const engine::DrumSetup& setup, double factor)
{
    auto other = setup;
    other.tensions.batter *= factor;
    other.tensions.resonant *= factor;
    modal::SolveOptions options;
    options.highestFrequency = 1500.0;
    other.modes = modal::solve (modal::DrumSpec{}, other.tensions, options);
    return other;
}

/** Measure of a click: the sound above 2 kHz, where a drum without wires has little left after 50 ms. Four poles
   (two second-order high-passes by the bilinear transform). */
std::vector<double> highPart (const std::vector<float>& sound, double sampleRate)
{
    const double k = std::tan (modal::units::pi * 2000.0 / sampleRate), norm = 1.0 / (1.0 + std::sqrt (2.0) * k + k * k);
    std::vector<double> out (sound.begin(), sound.end());
    for (int pass = 0; pass < 2; ++pass)
    {
        double x1 = 0.0, x2 = 0.0, y1 = 0.0, y2 = 0.0;
        for (auto& sample : out)
        {
            const double x = sample;
            sample = norm * (x - 2.0 * x1 + x2 - 2.0 * (k * k - 1.0) * y1 - (1.0 - std::sqrt (2.0) * k + k * k) * y2);
            x2 = std::exchange (x1, x);
            y2 = std::exchange (y1, sample);
        }
    }
    return out;
}

template <typename Sound>
double peak (const Sound& sound, int from, int to)
{
    double most = 0.0;
    for (int i = from; i < to; ++i)
        most = std::max (most, std::abs (static_cast<double> (sound[static_cast<std::size_t> (i)])));
    return most;
}

} // namespace

TEST_CASE ("switching a ringing drum to its own model again changes almost nothing")
{
    const auto setup = heard (testdrum::snare());
    const auto model = std::make_shared<engine::ExactDrumModel> (setup);
    engine::ExactDrum left (model), right (model);
    left.strike (engine::Stroke{});
    right.strike (engine::Stroke{});
    testdrum::run (left, 2400);
    testdrum::run (right, 2400);
    right.setModel (std::make_shared<engine::ExactDrumModel> (setup));

    const auto before = left.energy(), after = right.energy();
    CHECK (after == Approx (before).epsilon (0.02));
    const auto a = testdrum::listen (left, 480), b = testdrum::listen (right, 480);
    double power = 0.0, difference = 0.0;
    for (std::size_t i = 0; i < a.size(); ++i)
    {
        power += a[i] * a[i];
        difference += (a[i] - b[i]) * (a[i] - b[i]);
    }
    CHECK (difference < 0.01 * power);
}

TEST_CASE ("a ringing drum switches to a new tuning without a click")
{
    for (const bool wires : { false, true })
        for (const double factor : { 0.9, 1.03, 1.1, 1.3 })
        {
            auto setup = heard (testdrum::snare());
            setup.wires.on = wires;
            const auto former = std::make_shared<engine::DrumModel> (setup);
            const auto next = std::make_shared<engine::DrumModel> (retuned (setup, factor));
            engine::Drum drum (former);
            drum.strike (engine::Stroke{});
            auto sound = testdrum::listen (drum, 4800);
            const double energyBefore = drum.energy();

            const auto returned = drum.setModel (next);
            CAPTURE (wires, factor);
            CHECK (returned == former);
            CHECK (drum.energy() <= energyBefore * (1.0 + 1.0e-5));
            CHECK (drum.energy() > 0.9 * energyBefore);
            const auto later = testdrum::listen (drum, 4800);
            sound.insert (sound.end(), later.begin(), later.end());
            REQUIRE (std::all_of (sound.begin(), sound.end(), [] (float x) { return std::isfinite (x); }));

            // A click is a burst of high frequencies. There must be none above the level before (in the last 50 ms with wires,
            // which rattle irregularly) or 46 dB below the tone.
            const auto high = highPart (sound, setup.sampleRate);
            const double tone = peak (sound, 4320, 4800);
            const double before = peak (high, wires ? 2400 : 4320, 4800);
            CHECK (peak (high, 4800, 5280) <= std::max (1.4 * before, 0.005 * tone));
            // At the same energy the pressure is proportional to frequency, so to the root of the tension. Wires rattle
            // irregularly: no louder than in the 50 ms before.
            CHECK (peak (sound, 4800, 5280) < 1.3 * std::sqrt (factor) * (wires ? peak (sound, 2400, 4800) : tone));
        }
}

TEST_CASE ("switching models adds no energy, for any two drums")
{
    std::mt19937 random (3);
    const auto between = [&] (double low, double high) { return std::uniform_real_distribution<double> (low, high) (random); };
    std::vector<std::shared_ptr<const engine::DrumModel>> models;
    for (int i = 0; i < 12; ++i)
    {
        modal::DrumSpec spec;
        spec.diameter = between (0.25, 0.38);
        spec.depth = between (0.08, 0.25);
        spec.bottom = i % 5 == 4 ? modal::Bottom::open : modal::Bottom::head;
        if (i % 4 == 1)
            spec.muffling.emplace_back();
        const modal::Tensions tensions{ between (800.0, 6000.0), between (500.0, 3000.0) };
        modal::SolveOptions options;
        options.highestFrequency = 1500.0;
        auto setup = engine::setUp (spec, tensions, modal::solve (spec, tensions, options), {});
        setup.wires.on = i % 3 != 0;
        setup.wires.strandTension = between (0.5, 10.0);
        models.push_back (std::make_shared<engine::DrumModel> (heard (setup)));
    }

    engine::Drum drum (models.front());
    for (int i = 0; i < 300; ++i)
    {
        engine::Stroke stroke;
        stroke.kind = i % 3 == 0 ? engine::StrokeKind::buzz : engine::StrokeKind::tip;
        stroke.speed = between (0.3, 10.0);
        drum.strike (stroke);
        // From during the contact to long after it.
        const auto sound = testdrum::listen (drum, static_cast<int> (std::exp (between (2.0, 8.0))));
        REQUIRE (peak (sound, 0, static_cast<int> (sound.size())) < 50.0);
        const double before = drum.energy();
        drum.setModel (models[random() % models.size()]);
        CHECK (drum.energy() <= before * (1.0 + 1.0e-5));
    }
}

TEST_CASE ("a null model or one of another sample rate is refused")
{
    const auto model = std::make_shared<engine::DrumModel> (testdrum::snare (700.0));
    const auto other = std::make_shared<engine::DrumModel> (testdrum::snare (700.0, 44100.0));
    engine::Drum drum (model);
    for (const bool rings : { false, true })
    {
        if (rings)
            drum.strike (engine::Stroke{});
        testdrum::run (drum, 100);
        CHECK (drum.setModel (nullptr) == nullptr);
        CHECK (drum.setModel (other) == other);
        CHECK (&drum.model() == model.get());
    }
}

TEST_CASE ("switching the strainer off and on while the drum rings stays finite and comes to rest")
{
    auto setup = heard (testdrum::snare());
    const auto on = std::make_shared<engine::DrumModel> (setup);
    setup.wires.on = false;
    const auto off = std::make_shared<engine::DrumModel> (setup);
    engine::Drum drum (on);
    for (int i = 0; i < 20; ++i)
    {
        engine::Stroke stroke;
        stroke.speed = 6.0;
        drum.strike (stroke, 100);
        drum.setModel (i % 2 == 0 ? off : on);
        const auto sound = testdrum::listen (drum, 1111);
        REQUIRE (std::all_of (sound.begin(), sound.end(), [] (float x) { return std::isfinite (x) && std::abs (x) < 20.0f; }));
    }
    // Strands that swing clear of the head lose 0.3/s: 40 s for 104 dB.
    for (int second = 0; second < 40 && ! drum.isSilent(); ++second)
        testdrum::run (drum, 48000);
    CHECK (drum.isSilent());
}

TEST_CASE ("a model written as bytes and read back plays bit for bit the same, and takes over what rings")
{
    const auto hear = [] (engine::DrumSetup setup)
    {
        setup.microphones = engine::defaultMicrophones (setup.modes.depth);
        setup.microphones[1].invertsPolarity = true;
        return setup;
    };
    for (const auto& setup : { hear (testdrum::snare()), hear (testdrum::uneven()) })
    {
        const auto written = std::make_shared<const engine::DrumModel> (setup);
        const auto writtenNext = std::make_shared<const engine::DrumModel> (hear (retuned (setup, 1.1)));
        const auto copyOf = [] (const engine::DrumModel& model)
        {
            // Memory of another drum is reused.
            auto copy = std::make_shared<engine::DrumModel> (testdrum::anvil (48000.0));
            copy->read (model.write());
            return copy;
        };
        const auto play = [] (std::shared_ptr<const engine::DrumModel> first, std::shared_ptr<const engine::DrumModel> next)
        {
            engine::Drum drum (std::move (first));
            int at = 0;
            for (const auto kind : { engine::StrokeKind::rimshot, engine::StrokeKind::crossStick, engine::StrokeKind::buzz,
                                     engine::StrokeKind::doubleStroke, engine::StrokeKind::tip })
                drum.strike ({ .kind = kind, .position = 0.4, .angle = 1.1, .speed = 5.0 }, 1500 * at++);
            auto sound = testdrum::run (drum, 7000);
            drum.setModel (std::move (next));
            for (const auto& channel : testdrum::run (drum, 4000))
                sound.push_back (channel);
            return sound;
        };
        CHECK (play (written, writtenNext) == play (copyOf (*written), copyOf (*writtenNext)));
    }

    auto bytes = engine::DrumModel (testdrum::snare()).write();
    bytes.pop_back();
    engine::DrumModel model;
    CHECK_THROWS_AS (model.read (bytes), modal::InputError);
    bytes.resize (bytes.size() + 2);
    CHECK_THROWS_AS (model.read (bytes), modal::InputError);
}
