// Listening through the plugin's audio input: a lug check or strikes played by the engine arrive at the input bus, as in a host.
#include "TestProcessor.h"

#include "Plugin/PlayedLike.h"
#include "SyntheticDrum.h"
#include "tests/Catch.h"

#include "Modal/Tuning.h"
#include "Modal/Units.h"
#include "Modal/pitch/Note.h"

#include <juce_audio_formats/juce_audio_formats.h>

#include <algorithm>
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

TEST_CASE ("Columns of the input's spectrogram show a sine at its frequency and level, at any sample rate")
{
    for (const double sampleRate : { 44100.0, 48000.0, 96000.0 })
        for (const double hertz : { 80.0, 233.08, 1000.0, 2000.0 })
        {
            constexpr double level = -20.0; // dB below full scale
            std::vector<float> sine (static_cast<std::size_t> (0.5 * sampleRate));
            for (std::size_t i = 0; i < sine.size(); ++i)
                sine[i] = static_cast<float> (std::pow (10.0, level / 20.0) *
                                              std::sin (modal::units::twoPi * hertz * static_cast<double> (i) / sampleRate));
            std::vector<listening::LevelColumn> columns;
            listening::LevelColumns maker (sampleRate);
            maker.add (sine.data(), sine.size(), [&] (const auto& column) { columns.push_back (column); });
            CAPTURE (sampleRate, hertz);
            REQUIRE (columns.size() == 50);
            const auto& levels = columns[40].levels;
            const auto loudest = std::max_element (levels.begin(), levels.end());
            const auto row = static_cast<double> (loudest - levels.begin());
            CHECK (std::abs (row - listening::LevelColumn::rowOf (hertz)) <= 2.0); // half a tone: the window resolves 25 Hz
            CHECK (std::abs (listening::LevelColumn::floor * (1.0 - *loudest / 255.0) - level) < 0.6);
        }
}

TEST_CASE ("The input's spectrogram runs while it is watched, whether or not anyone listens")
{
    ListeningProcessor test;
    auto& listener = test.processor.listener();
    const listening::Recording second{ rate, std::vector<double> (48000, 0.1) };
    test.feed (second);
    CHECK (listener.columnsFrom (0).columns.empty());
    listener.setWatched (true);
    test.feed (second);
    const auto columns = listener.columnsFrom (0);
    CHECK (columns.first == 0);
    CHECK (columns.end() == 100);
    CHECK (listener.columnsFrom (90).columns.size() == 10);
    listener.setWatched (false);
    test.feed (second);
    CHECK (listener.columnsFrom (0).end() == 100);
    listener.setWatched (true);
    test.processor.prepareToPlay (44100.0, block); // the clock restarts
    test.feed (second);
    CHECK (listener.columnsFrom (0).end() == 108); // 48000 samples in columns of 441
}

TEST_CASE ("Strikes of the finished drum are heard at the input, and the answer is set as one undo step")
{
    ListeningProcessor test;
    auto& processor = test.processor;
    const modal::Tensions truth{ 2600.0, 1900.0 }; // N/m
    const auto drum = requestOf (processor.effectiveValues()).drum;
    synthetic::Strike strike{ .drum = drum, .tensions = truth };
    strike.wires.on = false;

    processor.startHearingStrikes ({});
    strike.position = 0.5;
    test.feed (synthetic::record (strike, { .signalToNoise = 40.0, .roomShare = 0.02 }));
    REQUIRE (test.report().partials.size() == 1);
    CHECK (test.report().partials.front().start == Approx (synthetic::leadIn).margin (0.02));
    auto report = test.report();
    CHECK (report.job == ListeningReport::Job::strikes);
    REQUIRE (report.strikes == 1);
    REQUIRE (report.drum != nullptr);
    REQUIRE (report.drum->isPossible);

    // The truth is the solver's, which knows nothing of the fit.
    const double batter = modal::tapNote (drum, modal::HeadSide::batter, truth.batter),
                 resonant = modal::tapNote (drum, modal::HeadSide::resonant, truth.resonant);
    const auto& answer = report.drum->answers.front();
    const auto isNear = [] (double hertz, const fitting::Estimate& heard)
    { return std::abs (heard.value - hertz) < 2.0 * heard.error + 0.01 * hertz; };
    CHECK (isNear (batter, answer.batter.tapNote));
    CHECK (isNear (resonant, answer.resonant.tapNote));

    // A note that a person reads narrows the answer.
    processor.setKnown ({ .resonantNote = resonant });
    test.catchUp();
    const auto known = test.report();
    REQUIRE (known.drum != nullptr);
    CHECK (known.drum->answers.front().resonant.tapNote.error < answer.resonant.tapNote.error);

    processor.undoManager().clearUndoHistory();
    processor.applyAnswer (known.drum->answers.front());
    const auto set = std::get<modal::ByTapNotes> (requestOf (processor.effectiveValues()).tuning.target);
    CHECK (std::abs (cents (known.drum->answers.front().batter.tapNote.value, set.batter)) < 1.5);
    CHECK (std::abs (cents (known.drum->answers.front().resonant.tapNote.value, set.resonant)) < 1.5);
    REQUIRE (processor.undoManager().undo());
    CHECK_FALSE (processor.undoManager().canUndo());

    // Strikes with the wires on are refused with what to do.
    strike.wires.on = true;
    strike.speed = 3.0;
    processor.startHearingStrikes ({});
    test.feed (synthetic::record (strike, { .signalToNoise = 40.0, .roomShare = 0.02 }));
    CHECK (test.report().strikes == 0);
    CHECK (test.report().remark.isRefusal());
    const auto troubles = test.report().remark.troubles; // a rattle that swells may also look like a second hit
    CHECK (std::find (troubles.begin(), troubles.end(), listening::Trouble::wiresOn) != troubles.end());
}

TEST_CASE ("The model is set to ring as the last strike, with its wires, as one undo step, and both are played one after the other")
{
    ListeningProcessor test;
    auto& processor = test.processor;
    test.waitUntil ([&] { return processor.solvedDrum() != nullptr && processor.solvedDrum()->request.drum.lugs == 6; });
    const auto solved = processor.solvedDrum();
    REQUIRE (solved != nullptr);
    synthetic::Strike strike{ .drum = solved->request.drum, .tensions = solved->tensions };
    strike.speed = 3.0; // with the wires on, which strikes for a tuning may not have
    processor.startHearingStrikes ({});
    test.feed (synthetic::record (strike, { .signalToNoise = 40.0, .roomShare = 0.02 }));
    REQUIRE (test.report().strikes == 0);
    REQUIRE (test.report().hasStroke);
    processor.playLikeLastStrike();
    test.catchUp();
    const auto played = test.report().played;
    REQUIRE (played != nullptr);
    CHECK (played->likeness.hasWires);

    processor.undoManager().clearUndoHistory();
    processor.applyLikeness (*played);
    CHECK (test.plain (Parameter::wiresOn) == 1.0);
    REQUIRE (processor.undoManager().undo());
    CHECK (test.plain (Parameter::wiresOn) == 0.0);
    CHECK_FALSE (processor.undoManager().canUndo());

    // The outputs play the recording and the model, sample for sample where the rates are the same.
    processor.listener().stop();
    test.catchUp();
    processor.hear (played->sideBySide);
    CHECK (test.feed ({ rate, std::vector<double> (played->sideBySide.samples.size() + block, 0.0) }) ==
           Approx (std::pow (10.0, -3.0 / 20.0)).epsilon (0.01)); // the louder peak is at -3 dB
    CHECK (test.feed ({ rate, std::vector<double> (4800, 0.0) }) == 0.0f);
}

TEST_CASE ("From the heads as heard to the tuning that is set there are turns of the rods, up for a higher note")
{
    ListeningProcessor test;
    const auto wanted = requestOf (test.processor.effectiveValues());
    const auto tensions = modal::tensionsFor (wanted.drum, wanted.tuning);
    const auto turns = rodTurnsTo (wanted, fitting::HeadAsIs{ .tension = tensions.batter }, fitting::HeadAsIs{ .tension = 0.8 * tensions.resonant });
    CHECK (std::abs (*turns.batter) < 1.0 / 32.0); // is there already
    // A fifth of the tension, by the turns' own sum: more than a sixteenth and less than a turn on any typical drum (common
    // practice, no source).
    CHECK (*turns.resonant > 1.0 / 16.0);
    CHECK (*turns.resonant < 1.0);
    CHECK_FALSE (rodTurnsTo (wanted, std::nullopt, fitting::HeadAsIs{ .tension = tensions.resonant }).batter);
}

TEST_CASE ("A lug check and strikes are heard from files; one that is no sound file says so")
{
    ListeningProcessor test;
    auto& processor = test.processor;
    const juce::TemporaryFile file (".wav");
    const auto write = [&] (const listening::Recording& recording)
    {
        juce::AudioBuffer<float> buffer (1, static_cast<int> (recording.samples.size()));
        for (int i = 0; i < buffer.getNumSamples(); ++i)
            buffer.setSample (0, i, static_cast<float> (recording.samples[static_cast<std::size_t> (i)]));
        file.getFile().deleteFile();
        const std::unique_ptr<juce::AudioFormatWriter> writer (juce::WavAudioFormat().createWriterFor (
            new juce::FileOutputStream (file.getFile()), recording.sampleRate, 1, 24, {}, 0));
        REQUIRE (writer->writeFromAudioSampleBuffer (buffer, 0, buffer.getNumSamples()));
    };
    const juce::StringArray paths{ file.getFile().getFullPathName() };

    constexpr double tension = 2600.0; // N/m
    auto check = test.check (modal::HeadSide::batter, tension);
    check.drum.lugs = 4;
    test.set (Parameter::lugs, 4.0);
    write (synthetic::record (check, { .signalToNoise = 30.0 }));
    processor.hearLugCheck (modal::HeadSide::batter, paths[0]);
    test.catchUp();
    REQUIRE (test.report().head);
    CHECK (test.report().heardCount() == 4);
    CHECK (test.report().partials.size() == 4);
    CHECK (test.report().head->tension.value == Approx (tension).epsilon (0.02));
    CHECK (test.report().recorded->columns.size() > 400);

    synthetic::Strike strike{ .drum = check.drum, .tensions = { tension, 1900.0 } };
    strike.wires.on = false;
    write (synthetic::record (strike, { .signalToNoise = 40.0, .roomShare = 0.02 }));
    processor.hearStrikes ({}, paths);
    test.catchUp();
    CHECK (test.report().strikes == 1);
    REQUIRE (test.report().drum != nullptr);
    CHECK (test.report().drum->isPossible);

    file.getFile().replaceWithText ("no sound");
    processor.hearStrikes ({}, paths);
    test.catchUp();
    CHECK (test.report().drum == nullptr);
    CHECK (test.report().remark.error.find ("is no sound file") != std::string::npos);
}
