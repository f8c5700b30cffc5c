// What one instance costs: load time, memory, processor time at 48 kHz in blocks of 64, and how often a swept interval is heard.
//
//   plugin-benchmark [seconds]

#include "TestProcessor.h"

#include "tests/bench/TableRow.h"

#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <string>
#include <thread>

using namespace plugin;

namespace
{
constexpr double rate = 48000.0;
constexpr int block = 64;
using Clock = std::chrono::steady_clock;

double secondsSince (Clock::time_point start)
{
    return std::chrono::duration<double> (Clock::now() - start).count();
}

/** Resident memory, MB. */
double memory()
{
    std::ifstream status ("/proc/self/status");
    for (std::string line; std::getline (status, line);)
        if (line.rfind ("VmRSS:", 0) == 0)
            return std::strtod (line.c_str() + 6, nullptr) / 1024.0;
    return 0.0;
}

double processorSeconds (clockid_t clock)
{
    timespec time{};
    clock_gettime (clock, &time);
    return static_cast<double> (time.tv_sec) + 1.0e-9 * static_cast<double> (time.tv_nsec);
}

double threadSeconds()
{
    return processorSeconds (CLOCK_THREAD_CPUTIME_ID);
}

/** Of all threads but this one. */
double otherThreadsSeconds()
{
    return processorSeconds (CLOCK_PROCESS_CPUTIME_ID) - threadSeconds();
}

struct Cost
{
    double timesRealTime; ///< seconds of sound a second of processor time
    double worstBlock;    ///< share of the block's own length
};

/** `each` is called before every block with its number. */
template <class Each>
Cost measure (Processor& processor, double seconds, Each&& each)
{
    juce::AudioBuffer<float> buffer (2, block);
    juce::MidiBuffer midi;
    const int blocks = static_cast<int> (seconds * rate / block);
    double used = 0.0, worst = 0.0;
    for (int i = 0; i < blocks; ++i)
    {
        each (i, midi);
        const auto start = threadSeconds();
        processor.processBlock (buffer, midi);
        const auto taken = threadSeconds() - start;
        used += taken;
        worst = std::max (worst, taken);
    }
    return { blocks * block / rate / used, worst * rate / block };
}

void print (const char* what, const Cost& cost)
{
    std::printf ("%s: the worst block takes %.0f %% of its time\n", what, 100.0 * cost.worstBlock);
    bench::printRow (what, 100.0 / cost.timesRealTime, "% of a core", "real time at 48 kHz", cost.timesRealTime);
}
} // namespace

int main (int argc, char** argv)
{
    const double seconds = argc > 1 ? std::atof (argv[1]) : 20.0;
    const juce::ScopedJuceInitialiser_GUI juce;
    const auto before = memory();
    auto start = Clock::now();
    auto processor = std::make_unique<Processor>();
    const auto constructed = secondsSince (start);
    processor->prepareToPlay (rate, block);
    const auto ready = secondsSince (start);
    bench::printRow ("construction", 1.0e3 * constructed, "ms");
    bench::printRow ("ready to play after", 1.0e3 * ready, "ms");
    bench::printRow ("memory of an instance", memory() - before, "MB");

    {
        const auto first = memory();
        Processor another;
        another.prepareToPlay (rate, block);
        bench::printRow ("memory of a further instance", memory() - first, "MB");
    }
    while (processor->solvedDrum() == nullptr)
        std::this_thread::sleep_for (std::chrono::milliseconds (1));

    const auto& model = *processor->solvedDrum()->model;
    std::printf ("%d modes (%d of the heads up to %.0f Hz), %d wire contacts\n", model.modes(), model.headModes(),
                 processor->solvedDrum()->modes().highestFrequency, model.wireContacts());

    const auto none = [] (int, juce::MidiBuffer&) {};
    // Sixteenths at 150 to the minute are ten strokes a second; a roll is twice that.
    const auto roll = [] (int i, juce::MidiBuffer& midi)
    {
        if (i % 37 == 0)
            midi.addEvent (juce::MidiMessage::noteOn (10, 38, static_cast<juce::uint8> (i % 2 == 0 ? 90 : 70)), 5);
    };
    print ("idle", measure (*processor, seconds, none));
    print ("roll, 20 strokes a second", measure (*processor, seconds, roll));
    processor->parameter (Parameter::wiresOn).setPlainValue (0.0);
    processor->prepareToPlay (rate, block);
    print ("roll, wires off", measure (*processor, seconds, roll));
    processor->parameter (Parameter::wiresOn).setPlainValue (1.0);
    processor->prepareToPlay (rate, block);

    // A sweep of the interval through an octave in two seconds of real time.
    const auto models = processor->solvedCount();
    const auto solving = otherThreadsSeconds();
    start = Clock::now();
    while (secondsSince (start) < 2.0)
    {
        const auto share = static_cast<float> (secondsSince (start) / 2.0);
        auto& interval = processor->parameter (Parameter::interval);
        interval.setValue (interval.convertTo0to1 (12.0f * share));
        juce::AudioBuffer<float> buffer (2, block);
        juce::MidiBuffer midi;
        processor->processBlock (buffer, midi);
        std::this_thread::sleep_for (std::chrono::microseconds (1333));
    }
    const auto heard = processor->solvedCount() - models;
    bench::printRow ("swept interval, heard", heard / secondsSince (start), "steps a second");
    bench::printRow ("swept interval, solved", heard / (otherThreadsSeconds() - solving),
                     "steps a second of the solver's processor time");
    return 0;
}
