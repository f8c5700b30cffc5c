// Shows that the audio thread neither allocates, frees, locks nor calls the system while parameters storm, presets change, a
// pattern plays and the input is listened to. A program of its own, because it replaces the allocator.

#include "AudioThreadWatch.h"
#include "TestProcessor.h"

#include <cstdio>
#include <cstdlib>
#include <random>
#include <thread>

using namespace plugin;

namespace
{
constexpr int blocks = 4000;
constexpr int fewestModels = 5; // handed over while the audio thread plays
std::atomic<bool> isDone{ false };

int fail (const char* what)
{
    std::fprintf (stderr, "FAILED: %s\n", what);
    return 1;
}

/** Proves that the watch sees what it should before its silence is believed. */
bool watchWorks()
{
    bool works = true;
    std::thread thread (
        [&]
        {
            static std::mutex mutex;
            std::free (*std::make_unique<void* volatile> (std::malloc (1))); // a thread's first allocation sets up its heap
            works = watch::trapSystemCalls();
            watch::start();
            auto* volatile memory = new int (1);
            delete memory;
            mutex.lock();
            mutex.unlock();
            getppid();
            const auto seen = watch::stop();
            works = works && seen.allocations == 1 && seen.frees == 1 && seen.locks == 1 && seen.systemCalls == 1;
        });
    thread.join();
    return works;
}

struct Storm
{
    explicit Storm (Processor& toShake) : processor (toShake) {}

    void playBlock()
    {
        // Automation arrives on the audio thread, as hosts deliver it.
        for (int i = 0; i < 6; ++i)
        {
            const auto which = static_cast<Parameter> (random() % parameterCount);
            if (which != Parameter::bypass)
                processor.parameter (which).setValue (static_cast<float> (random() % 10001) / 10000.0f);
        }
        if (random() % 8 == 0)
            midi.addEvent (strike, static_cast<int> (random() % 64));
        // A blow at the input every 0.4 s, for the listener to take apart meanwhile.
        for (int i = 0; i < 64; ++i, ++played)
        {
            const auto since = static_cast<float> (played % 19200) / 48000.0f;
            const auto tap = 0.5f * std::exp (-12.0f * since) * std::sin (1300.0f * since);
            for (int channel = 0; channel < 2; ++channel)
                buffer.setSample (channel, i, tap + 1.0e-4f * static_cast<float> (random() % 1000) / 1000.0f);
        }
        processor.processBlock (buffer, midi);
    }

    Processor& processor;
    std::minstd_rand random{ 7 };
    juce::AudioBuffer<float> buffer{ 2, 64 };
    juce::MidiMessage strike = juce::MidiMessage::noteOn (10, 38, static_cast<juce::uint8> (100));
    juce::MidiBuffer midi;
    int played = 0;
};
} // namespace

int main()
{
    if (! watchWorks())
        return fail ("the watch does not see an allocation, a lock and a system call of its own");

    TestProcessor test;
    auto& processor = test.processor;
    test.set (Parameter::patternOn, 1.0);
    // The drum that it begins with has a muffled head and a lug that is off: the dearest to strike and to hand over.
    test.set (Parameter::batterLug1, 20.0);
    test.set (Parameter::patchMass, 5.0);
    processor.setPlayConfigDetails (2, 2, 48000.0, 64);
    test.prepare (48000.0, 64);
    const auto isUneven = [&]
    {
        const auto drum = processor.solvedDrum();
        return drum != nullptr && ! drum->modes().isUniform;
    };
    for (int i = 0; i < 6000 && ! isUneven(); ++i)
        std::this_thread::sleep_for (std::chrono::milliseconds (10));
    if (! isUneven())
        return fail ("no uneven, muffled drum was solved");
    const auto presets = processor.presets().entries();
    Storm storm (processor);
    storm.midi.ensureSize (4096);
    float peak = 0.0f;
    watch::Counts seen;
    bool isTrapped = false;

    std::thread audio (
        [&]
        {
            isTrapped = watch::trapSystemCalls();
            watch::start();
            // On a busy machine it may take longer until enough models have arrived.
            for (int i = 0; i < blocks || (processor.solvedCount() < fewestModels && i < 20 * blocks); ++i)
            {
                storm.playBlock();
                peak = std::max (peak, storm.buffer.getMagnitude (0, 64));
                // About as fast as sound, so that models arrive as they do in a host.
                for (const auto until = std::chrono::steady_clock::now() + std::chrono::microseconds (1300);
                     std::chrono::steady_clock::now() < until;)
                    ;
            }
            seen = watch::stop();
            isDone.store (true);
        });

    // Meanwhile the message thread loads presets, states and snapshots.
    std::minstd_rand random (3);
    int changes = 0;
    float heard = 0.0f;
    while (! isDone.load())
    {
        processor.loadPreset (presets[random() % presets.size()]);
        processor.storeSnapshot (random() % 2 == 0 ? LiveSound::a : LiveSound::b);
        juce::MemoryBlock state;
        processor.getStateInformation (state);
        processor.setStateInformation (state.getData(), static_cast<int> (state.getSize()));
        engine::Stroke stroke;
        processor.audition (stroke);
        if (changes % 30 == 0)
            processor.startListening (modal::HeadSide::batter);
        heard = std::max (heard, processor.listener().takePeak());
        ++changes;
        std::this_thread::sleep_for (std::chrono::milliseconds (20));
    }
    audio.join();

    std::printf ("%d blocks of 64, %d preset and state changes, %d models handed over, peak %.3f\n", blocks, changes,
                 processor.solvedCount(), static_cast<double> (peak));
    std::printf ("on the audio thread: %llu allocations, %llu frees, %llu locks, %llu system calls (last %ld)\n",
                 static_cast<unsigned long long> (seen.allocations), static_cast<unsigned long long> (seen.frees),
                 static_cast<unsigned long long> (seen.locks), static_cast<unsigned long long> (seen.systemCalls),
                 seen.lastSystemCall);

    if (! isTrapped)
        return fail ("the kernel does not trap system calls");
    if (heard < 0.1f)
        return fail ("nothing was heard at the input");
    if (processor.solvedCount() < fewestModels || peak < 1.0e-3f || ! std::isfinite (peak))
        return fail ("too little happened for the count to mean anything");
    return seen.all() == 0 ? 0 : fail ("the audio thread did what it must not");
}
