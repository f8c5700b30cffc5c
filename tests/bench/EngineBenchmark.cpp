// How much faster than real time a drum plays on one core, where the time goes, and against what.
//
//     engine-benchmark [seconds of sound a measurement, 2 by default] [--plot FILE.svg]
//     engine-benchmark --moments     strokes and hand-overs alone
//     engine-benchmark --brush       a brush alone
//
// Processor time, the best of three. Strokes fall every 64 ms, so that the wires are never at rest. Baselines in the same run:
//   - the modal bank alone against the shortest hand-written loop over the same recursion (no strikers, no wires, no
//   microphones);
//   - the wires against the scheme as it is written down (PlainDense.h), compiled with the same flags as the fast loop,
//   - and against a dense coupling of all contacts to all modes in the fast loop itself (told that the drum has no symmetry);
//   - the slowest second of a long decay against its first, as single precision must not slow down where modes fade to nothing;
//   - every inner loop that this processor can run,
//   - a brush against a stick,
//   - and a stroke's landing and a hand-over on uneven and muffled drums against those on an even one (MomentCost.h).

#include "CostPlot.h"
#include "MomentCost.h"
#include "PlainDense.h"
#include "TableRow.h"

#include "Engine/Drum.h"
#include "Engine/KernelDispatch.h"
#include "tests/engine/TestDrum.h"

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <ctime>

#if defined(__AVX2__) || (defined(__x86_64__) && defined(__GNUC__))
#include <immintrin.h>
#define HAS_HAND_WRITTEN_LOOP 1
#endif

namespace
{

constexpr int usualBlock = 128;
constexpr int momentRepeats = 101;

double processorSeconds()
{
    return static_cast<double> (std::clock()) / CLOCKS_PER_SEC;
}

template <typename Work>
double bestOfThree (const Work& work)
{
    double best = 1.0e9;
    for (int i = 0; i < 3; ++i)
    {
        const double start = processorSeconds();
        work();
        best = std::min (best, processorSeconds() - start);
    }
    return best;
}

#if defined(__x86_64__) && defined(__GNUC__)
/** GHz that this core runs at: additions that wait for one another take a cycle each. Says more than a name does on a machine
   that is shared. */
double coreClock()
{
    constexpr long turns = 20'000'000;
    const double time = bestOfThree (
        []
        {
            unsigned long x = 0;
            for (long i = 0; i < turns; ++i)
                asm volatile("add $1, %0\n\tadd $1, %0\n\tadd $1, %0\n\tadd $1, %0" : "+r"(x));
        });
    return 4.0 * static_cast<double> (turns) / time * 1.0e-9;
}
#endif

engine::DrumSetup snare (double highest)
{
    auto setup = testdrum::snare (highest);
    setup.microphones = engine::defaultMicrophones (modal::DrumSpec().depth);
    return setup;
}

struct Cost
{
    double nanoseconds; ///< a sample
    double timesRealTime;
    int headModes, modes, contacts;
};

/** How a drum is played. */
struct Playing
{
    engine::KernelFunction<float> kernel = nullptr; ///< the best for this processor if none
    bool strikes = true;
    int block = usualBlock;
    engine::Stroke stroke{}; ///< the first one, and those that follow
};

Cost play (const engine::DrumSetup& setup, double seconds, const Playing& how = {})
{
    const auto model = std::make_shared<engine::DrumModel> (setup);
    engine::Drum drum (model);
    if (how.kernel != nullptr)
        drum.setKernel (how.kernel);
    const auto length = static_cast<std::size_t> (how.block);
    std::vector<float> sound (3 * length);
    float* outputs[] = { sound.data(), sound.data() + length, sound.data() + 2 * length };
    const int blocks = static_cast<int> (seconds * setup.sampleRate / how.block);
    const int untilNext = static_cast<int> (0.064 * setup.sampleRate);
    auto stroke = how.stroke;
    drum.strike (stroke);
    drum.process (outputs, how.block);
    const double time = bestOfThree (
        [&]
        {
            int sinceStroke = untilNext;
            for (int b = 0; b < blocks; ++b, sinceStroke += how.block)
            {
                stroke.position = 0.2 + 0.01 * (b % 50);
                if (how.strikes && sinceStroke >= untilNext)
                {
                    drum.strike (stroke);
                    sinceStroke = 0;
                }
                drum.process (outputs, how.block);
            }
        });
    const double samples = static_cast<double> (blocks) * how.block;
    return { time / samples * 1.0e9, samples / setup.sampleRate / time, model->headModes(), model->modes(),
             model->wireContacts() };
}

/** A drum whose lowest modes ring on for ever, so that it never falls asleep, while all others fade to nothing. */
engine::DrumSetup endless (engine::DrumSetup setup)
{
    for (std::size_t k = 0; k < 6; ++k)
        setup.modes.modes[k].decay = {};
    setup.wires.on = false;
    return setup;
}

/** The slowest second of a long decay over its first. */
double slowestOverFirst (const engine::DrumSetup& setup, double length)
{
    engine::Drum drum (std::make_shared<engine::DrumModel> (setup));
    std::vector<float> sound (3 * usualBlock);
    float* outputs[] = { sound.data(), sound.data() + usualBlock, sound.data() + 2 * usualBlock };
    engine::Stroke stroke;
    stroke.speed = 0.3;
    drum.strike (stroke);
    const auto aSecond = [&]
    {
        const double start = processorSeconds();
        for (int b = 0; b < static_cast<int> (setup.sampleRate / usualBlock); ++b)
            drum.process (outputs, usualBlock);
        return processorSeconds() - start;
    };
    const double first = aSecond();
    double slowest = 0.0;
    for (double time = 1.0; time < length; time += 1.0)
        slowest = std::max (slowest, aSecond());
    return slowest / first;
}

#if defined(HAS_HAND_WRITTEN_LOOP)
/** The least that a bank can be: three constants and two states a mode, eight modes at a time. */
__attribute__ ((target ("avx2,fma"))) double handWrittenBank (int modes, int samples)
{
    engine::AlignedArray<float> keep (static_cast<std::size_t> (modes), 0.9999f), spring (keep.size(), 1.0e-3f),
        drive (keep.size(), 1.0e-9f), position (keep.size(), 1.0e-3f), step (keep.size(), 0.0f), push (keep.size(), 0.0f);
    // Plain pointers: a vector's own would be read again after every store.
    const float *keeps = keep.data(), *springs = spring.data(), *drives = drive.data(), *pushes = push.data();
    float *positions = position.data(), *steps = step.data();
    double best = 1.0e9;
    for (int repeat = 0; repeat < 3; ++repeat)
    {
        const double start = processorSeconds();
        for (int i = 0; i < samples; ++i)
        {
            for (int k = 0; k < modes; k += 8)
            {
                const __m256 q = _mm256_load_ps (positions + k);
                const __m256 forced = _mm256_mul_ps (_mm256_load_ps (drives + k), _mm256_load_ps (pushes + k));
                const __m256 kept = _mm256_fmadd_ps (_mm256_load_ps (keeps + k), _mm256_load_ps (steps + k), forced);
                const __m256 next = _mm256_fnmadd_ps (_mm256_load_ps (springs + k), q, kept);
                _mm256_store_ps (steps + k, next);
                _mm256_store_ps (positions + k, _mm256_add_ps (q, next));
            }
            asm volatile("" : : "r"(positions), "r"(steps) : "memory");
        }
        best = std::min (best, processorSeconds() - start);
    }
    return best / samples * 1.0e9;
}
#endif

void line (const std::string& name, const Cost& cost)
{
    std::printf ("%-34s %5d %6d %9d %10.0f %9.1f\n", name.c_str(), cost.headModes, cost.modes, cost.contacts, cost.nanoseconds,
                 cost.timesRealTime);
}

void compareLoops (const engine::DrumSetup& full, double seconds)
{
    for (const std::string kernel : { "baseline", "avx2", "avx512" })
        if (engine::kernelNamed (kernel.c_str()).name == kernel)
            line ("full drum, 3 microphones, " + kernel, play (full, seconds, { engine::kernelNamed (kernel.c_str()).run }));
}

void compareWires (const engine::DrumSetup& full, double seconds)
{
    // The plain scheme leaves out the rise of tension, so both go without.
    auto wired = full;
    wired.batterStretch = wired.resonantStretch = 0.0;
    auto quiet = wired;
    quiet.wires.on = false;
    auto dense = wired;
    dense.modes.isUniform = false;
    const auto ours = play (wired, seconds), without = play (quiet, seconds), fast = play (dense, std::min (seconds, 1.0));
    line ("no rise of tension", ours);
    line ("no rise of tension, no wires", without);
    line ("dense coupling, fast loop", fast);
    const auto share = [&] (const Cost& cost)
    { return (cost.nanoseconds - without.nanoseconds) / (ours.nanoseconds - without.nanoseconds); };
    const double wires = ours.nanoseconds - without.nanoseconds;
    bench::printRow ("wires", wires, "ns a sample", "dense coupling in the fast loop", share (fast));
#if defined(HAS_HAND_WRITTEN_LOOP)
    if (! __builtin_cpu_supports ("avx2") || ! __builtin_cpu_supports ("fma"))
        return;
#endif
    const auto plain = play (dense, std::min (0.25 * seconds, 0.5), { bench::playPlainDense });
    line ("dense coupling, as written down", plain);
    bench::printRow ("wires", wires, "ns a sample", "the scheme as written down", share (plain));
}

/** A brush that taps as often as a stick strikes, and one that sweeps all the time. */
void compareBrush (const engine::DrumSetup& full, double seconds)
{
    auto brushed = full;
    modal::StickSpec brush;
    brush.brushWires = 100;
    brushed.stick = modal::solveStick (brush);
    brushed.batterRoughness = 15.0e-6;
    engine::Stroke sweep;
    sweep.kind = engine::StrokeKind::sweep;
    sweep.position = 0.5;
    sweep.speed = 0.5;
    sweep.sweepTime = 30.0;
    const auto stick = play (full, seconds), taps = play (brushed, seconds),
               swept = play (brushed, std::min (seconds, 3.0), { .strikes = false, .stroke = sweep });
    bench::printRow ("brush that taps every 64 ms", taps.nanoseconds, "ns a sample", "a stick's strokes",
                     stick.nanoseconds / taps.nanoseconds);
    bench::printRow ("brush that sweeps at 0.5 m/s", swept.nanoseconds, "ns a sample", "a stick's strokes",
                     stick.nanoseconds / swept.nanoseconds);
    bench::printRow ("brush that sweeps at 0.5 m/s", swept.nanoseconds, "ns a sample", "real time at 48 kHz", swept.timesRealTime);
}

void compareBank (const engine::DrumSetup& full, double seconds)
{
    auto bare = full;
    bare.wires.on = false;
    bare.batterStretch = bare.resonantStretch = 0.0;
    bare.microphones.clear();
    // Nothing may fade, or the drum would fall asleep and cost nothing.
    for (auto& mode : bare.modes.modes)
        mode.decay = {};
    line ("bank alone, no microphone", play (bare, seconds, { nullptr, false }));
#if defined(HAS_HAND_WRITTEN_LOOP)
    if (__builtin_cpu_supports ("avx2") && __builtin_cpu_supports ("fma"))
    {
        const auto bank = play (bare, seconds, { engine::kernelNamed ("avx2").run, false });
        line ("bank alone, avx2", bank);
        const double hand = handWrittenBank (bank.modes, static_cast<int> (seconds * 48000.0));
        bench::printRow ("bank of " + std::to_string (bank.modes) + " modes alone", bank.nanoseconds, "ns a sample",
                         "hand-written loop", hand / bank.nanoseconds);
    }
#endif
}

/** Cost against modes, strands and block size, everything else as in the full drum. */
std::vector<bench::CostCurve> measureCurves (double seconds)
{
    std::vector<bench::CostCurve> curves{ { "modes of the heads", {} },
                                          { "wire contacts (strands x points)", {} },
                                          { "block, samples", {} } };
    std::printf ("\nagainst modes (8 strands of 8 points, blocks of %d):\n", usualBlock);
    for (const double highest : { 700.0, 1000.0, 1500.0, 2000.0, 2500.0, 3000.0 })
    {
        const auto cost = play (snare (highest), 0.5 * seconds);
        line (std::to_string (static_cast<int> (highest)) + " Hz", cost);
        curves[0].points.push_back ({ static_cast<double> (cost.headModes), cost.nanoseconds });
    }
    auto setup = snare (2000.0);
    std::printf ("\nagainst strands and points:\n");
    for (const auto& [strands, points] :
         { std::pair{ 2, 8 }, std::pair{ 4, 8 }, std::pair{ 8, 8 }, std::pair{ 8, 12 }, std::pair{ 8, 16 }, std::pair{ 12, 16 } })
    {
        setup.wireDetail.strands = strands;
        setup.wireDetail.points = points;
        const auto cost = play (setup, 0.5 * seconds);
        line (std::to_string (strands) + " x " + std::to_string (points), cost);
        curves[1].points.push_back ({ static_cast<double> (cost.contacts), cost.nanoseconds });
    }
    setup.wireDetail = {};
    std::printf ("\nagainst block size:\n");
    for (const int block : { 16, 32, 64, 128, 256, 512 })
    {
        const auto cost = play (setup, 0.5 * seconds, { nullptr, true, block });
        line (std::to_string (block) + " samples", cost);
        curves[2].points.push_back ({ static_cast<double> (block), cost.nanoseconds });
    }
    return curves;
}

} // namespace

int main (int argc, char** argv)
{
    double seconds = 2.0;
    std::string plot;
    for (int i = 1; i < argc; ++i)
        if (std::strcmp (argv[i], "--plot") == 0 && i + 1 < argc)
            plot = argv[++i];
        else if (std::strcmp (argv[i], "--brush") == 0)
        {
            compareBrush (snare (2000.0), seconds);
            return 0;
        }
        else if (std::strcmp (argv[i], "--moments") == 0)
        {
            bench::printMomentCosts (momentRepeats);
            return 0;
        }
        else
            seconds = std::max (0.01, std::atof (argv[i]));

    std::printf ("%-34s %5s %6s %9s %10s %9s\n", "", "heads", "modes", "contacts", "ns/sample", "x real");
    const auto full = snare (2000.0);
#if defined(__x86_64__) && defined(__GNUC__)
    const double clock = coreClock();
    bench::printRow ("clock of the core", clock, "GHz");
#endif
    const auto whole = play (full, seconds);
    bench::printRow ("drum of " + std::to_string (whole.headModes) + " modes of the heads, strokes every 64 ms, 3 microphones",
                     whole.nanoseconds, "ns a sample", "real time at 48 kHz", whole.timesRealTime);
    compareLoops (full, seconds);
    compareWires (full, seconds);
    compareBank (full, seconds);
    compareBrush (full, seconds);
    // A minute in a full run.
    const double decay = std::min (60.0, 30.0 * seconds);
    bench::printRow ("slowest second of a decay", decay, "s long", "its first second",
                     1.0 / slowestOverFirst (endless (full), decay));
    bench::printMomentCosts (seconds < 1.0 ? 3 : momentRepeats);

    const auto curves = measureCurves (seconds);
    if (! plot.empty() && ! bench::writeCostPlot (plot, curves))
    {
        std::fprintf (stderr, "cannot write %s\n", plot.c_str());
        return 1;
    }
    return 0;
}
