// Listening through the plugin's audio input: a lug check played by the engine arrives at the input bus, as in a host.
#include "TestProcessor.h"

#include "SyntheticDrum.h"
#include "tests/Catch.h"

#include "Modal/Tuning.h"
#include "Modal/pitch/Note.h"

#include <cmath>

using namespace plugin;

namespace
{
constexpr double rate = 48000.0;
constexpr int block = 480;

struct ListeningProcessor : TestProcessor
{
    explicit ListeningProcessor (int inputs = 2)
    {
        processor.setPlayConfigDetails (inputs, 2, rate, block);
        prepare (rate, block);
        set (Parameter::lugs, 6.0);
        set (Parameter::wiresOn, 0.0);
    }

    /** Plays a recording into the input, as fast as it is listened to; the loudest sample that came out. */
    float feed (const listening::Recording& recording)
    {
        juce::AudioBuffer<float> buffer (2, block);
        juce::MidiBuffer midi;
        float loudest = 0.0f;
        catchUp(); // with a lug check just started
        for (std::size_t done = 0; done + block <= recording.samples.size(); done += block)
        {
            for (int i = 0; i < block; ++i)
                for (int channel = 0; channel < 2; ++channel)
                    buffer.setSample (channel, i, static_cast<float> (recording.samples[done + static_cast<std::size_t> (i)]));
            processor.processBlock (buffer, midi);
            loudest = std::max (loudest, buffer.getMagnitude (0, block));
            if (done % (10 * block) == 0)
                catchUp();
        }
        catchUp();
        return loudest;
    }

    void catchUp()
    {
        while (! processor.listener().isCaughtUp())
            juce::Thread::sleep (1);
    }

    ListeningReport report() const { return *processor.listener().report(); }

    /** A lug check of a head of the current drum, at another tension than the one set. */
    synthetic::LugCheck check (modal::HeadSide side, double tension) const
    {
        return { .drum = requestOf (processor.effectiveValues()).drum, .side = side, .tension = tension, .between = 1.1 };
    }

    double plain (Parameter which) const { return processor.parameter (which).plainValue(); }
};

double cents (double from, double to)
{
    return modal::centsBetween (from, to);
}
} // namespace

TEST_CASE ("The input bus is a side chain: off at first, mono or stereo, and silent at the output")
{
    TestProcessor test;
    auto& processor = test.processor;
    REQUIRE (processor.getBusCount (true) == 1);
    CHECK_FALSE (processor.hasInput());
    CHECK_FALSE (processor.getPluginHasMainInput());

    auto layout = processor.getBusesLayout();
    for (const auto& [channels, isAllowed] :
         { std::pair{ juce::AudioChannelSet::disabled(), true }, std::pair{ juce::AudioChannelSet::mono(), true },
           std::pair{ juce::AudioChannelSet::stereo(), true }, std::pair{ juce::AudioChannelSet::create5point1(), false } })
    {
        layout.inputBuses.getReference (0) = channels;
        CHECK (processor.checkBusesLayoutSupported (layout) == isAllowed);
    }

    // The input never reaches the output, whether listening or not.
    ListeningProcessor listening;
    const listening::Recording noise{ rate, std::vector<double> (48000, 0.5) };
    CHECK (listening.feed (noise) == 0.0f);
    CHECK (listening.report().stage == ListeningReport::Stage::off);
    listening.processor.startListening (modal::HeadSide::batter);
    CHECK (listening.feed (noise) == 0.0f);
    CHECK (listening.processor.listener().takePeak() == Approx (0.5f));
}

TEST_CASE ("A lug check of the batter is heard at the input and applied as one undo step")
{
    ListeningProcessor test;
    auto& processor = test.processor;
    constexpr double tension = 2600.0; // N/m
    const auto check = test.check (modal::HeadSide::batter, tension);
    const double truth = modal::tapNote (check.drum, modal::HeadSide::batter, tension);
    processor.startListening (modal::HeadSide::batter);
    test.feed (synthetic::record (check, { .signalToNoise = 30.0 }));

    const auto report = test.report();
    REQUIRE (report.heardCount() == 6);
    CHECK (report.next == -1);
    CHECK (report.stage == ListeningReport::Stage::off);
    for (const auto& note : report.notes)
        CHECK (std::abs (cents (truth, note->value)) < 3.0);
    CHECK (std::abs (cents (truth, report.meanNote())) < 3.0);
    REQUIRE (report.head);
    REQUIRE (report.head->isPossible);
    CHECK (report.head->tension.value == Approx (tension).epsilon (0.02));

    const auto before = processor.effectiveValues();
    const double resonant = test.plain (Parameter::batterNote) + test.plain (Parameter::interval);
    processor.undoManager().clearUndoHistory();
    processor.applyMeasuredHead();
    const auto set = requestOf (processor.effectiveValues());
    CHECK (std::abs (cents (truth, std::get<modal::ByTapNotes> (set.tuning.target).batter)) < 3.0);
    // The other head stays.
    CHECK (test.plain (Parameter::batterNote) + test.plain (Parameter::interval) == Approx (resonant).margin (0.011));
    for (int lug = 0; lug < 6; ++lug)
        CHECK (std::abs (test.plain (batterLug (lug)) - report.head->lugCents[static_cast<std::size_t> (lug)].value) < 0.06);

    REQUIRE (processor.undoManager().undo());
    CHECK (processor.effectiveValues() == before);
    CHECK_FALSE (processor.undoManager().canUndo());

    // A drum with a different number of lugs is not the one checked.
    test.set (Parameter::lugs, 10.0);
    const auto other = processor.effectiveValues();
    processor.applyMeasuredHead();
    CHECK (processor.effectiveValues() == other);
    CHECK (juce::String (processor.messages().latest().text).contains ("6 lugs"));
}

TEST_CASE ("A lug check of the resonant head changes the interval, also through a mono input")
{
    ListeningProcessor test (1);
    constexpr double tension = 1500.0; // N/m
    auto check = test.check (modal::HeadSide::resonant, tension);
    check.speed = 0.6;
    const double truth = modal::tapNote (check.drum, modal::HeadSide::resonant, tension);
    test.processor.startListening (modal::HeadSide::resonant);
    test.feed (synthetic::record (check, { .signalToNoise = 35.0 }));
    const auto report = test.report();
    REQUIRE (report.head);
    REQUIRE (report.head->isPossible);
    CHECK (report.side == modal::HeadSide::resonant);

    const double batter = test.plain (Parameter::batterNote);
    test.processor.applyMeasuredHead();
    CHECK (test.plain (Parameter::batterNote) == Approx (batter));
    const auto set = requestOf (test.processor.effectiveValues());
    CHECK (std::abs (cents (truth, std::get<modal::ByTapNotes> (set.tuning.target).resonant)) < 3.0);
}

TEST_CASE ("Double hits and noise are refused with a reason; the last tap can be deleted")
{
    ListeningProcessor test;
    auto& processor = test.processor;
    constexpr double tension = 2600.0;
    const auto check = test.check (modal::HeadSide::batter, tension);
    synthetic::Strike strike{ .drum = check.drum, .tensions = { tension, 2000.0 } };
    strike.wires.on = false;
    strike.count = 2;
    strike.between = 0.09;

    processor.startListening (modal::HeadSide::batter);
    test.feed (synthetic::record (strike, { .signalToNoise = 40.0, .roomShare = 0.02 }));
    CHECK (test.report().heardCount() == 0);
    CHECK (test.report().remark.isRefusal());
    CHECK (test.report().remark.troubles.front() == listening::Trouble::doubleHit);
    CHECK (test.report().next == 0);

    processor.startListening (modal::HeadSide::batter);
    const auto noisy = synthetic::record (check, { .signalToNoise = 7.0 });
    test.feed (noisy);
    CHECK (test.report().heardCount() == 0);
    CHECK (test.report().remark.isRefusal());

    // The first two taps of a good lug check, delete the second, analyse the first.
    auto good = synthetic::record (check, { .signalToNoise = 30.0 });
    good.samples.resize (static_cast<std::size_t> (2.6 * rate));
    processor.startListening (modal::HeadSide::batter);
    test.feed (good);
    REQUIRE (test.report().heardCount() == 2);
    processor.listener().deleteLastTap();
    test.catchUp();
    CHECK (test.report().heardCount() == 1);
    CHECK (test.report().next == 1);
    processor.listener().analyse();
    test.catchUp();
    REQUIRE (test.report().head);
    CHECK (test.report().head->isPossible);
    CHECK (test.report().head->lugCents.empty()); // one tap does not tell

    // Taps at another sample rate are dropped.
    processor.prepareToPlay (44100.0, block);
    test.catchUp();
    CHECK (test.report().notes.empty());
}
