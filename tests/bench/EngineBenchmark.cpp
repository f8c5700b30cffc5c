// How much faster than real time a drum plays on one core, where the time goes, and against what.
//
//     engine-benchmark [seconds of sound a measurement, 2 by default]
//
// Processor time, the best of three. Strokes fall every 64 ms, so that the wires are never at rest. Three baselines in the same
// run:
//   - the modal bank alone against the shortest hand-written loop over the same recursion (no strikers, no wires, no
//   microphones);
//   - the wires against a dense coupling of all contacts to all modes (the same loop told that the drum has no symmetry);
//   - every inner loop that this processor can run.

#include "Engine/Drum.h"
#include "Engine/VectorChoice.h"
#include "Modal/Tuning.h"

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <ctime>

#if defined(__AVX2__) || (defined(__x86_64__) && defined(__GNUC__))
#include <immintrin.h>
#define HAS_HAND_WRITTEN_LOOP 1
#endif

namespace
{

constexpr int block = 128;

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

engine::DrumSetup snare (double highest)
{
    const modal::DrumSpec spec;
    modal::Tuning tuning;
    tuning.target = modal::ByTapNotes{ 220.0, 330.0 };
    engine::DrumSetup setup;
    setup.tensions = modal::tensionsFor (spec, tuning);
    modal::SolveOptions options;
    options.highestFrequency = highest;
    setup.modes = modal::solve (spec, setup.tensions, options);
    setup.microphones = engine::defaultMicrophones (spec.depth);
    return setup;
}

struct Cost
{
    double nanoseconds; ///< a sample
    double timesRealTime;
    int headModes, modes, contacts;
};

Cost play (const engine::DrumSetup& setup, double seconds, const char* kernel, bool strikes = true)
{
    const auto model = std::make_shared<engine::DrumModel> (setup);
    engine::Drum drum (model);
    if (kernel != nullptr)
        drum.setKernel (engine::kernelNamed (kernel).run);
    std::vector<float> sound (3 * block);
    float* outputs[] = { sound.data(), sound.data() + block, sound.data() + 2 * block };
    const int blocks = static_cast<int> (seconds * setup.sampleRate / block);
    engine::Stroke stroke;
    drum.strike (stroke);
    drum.process (outputs, block);
    const double time = bestOfThree (
        [&]
        {
            for (int b = 0; b < blocks; ++b)
            {
                stroke.position = 0.2 + 0.01 * (b % 50);
                if (strikes && b % 24 == 0)
                    drum.strike (stroke, 5);
                drum.process (outputs, block);
            }
        });
    const double samples = static_cast<double> (blocks) * block;
    return { time / samples * 1.0e9, samples / setup.sampleRate / time, model->headModes(), model->modes(),
             model->wireContacts() };
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

void line (const char* name, const Cost& cost)
{
    std::printf ("%-34s %5d %6d %9d %10.0f %9.1f\n", name, cost.headModes, cost.modes, cost.contacts, cost.nanoseconds,
                 cost.timesRealTime);
}

} // namespace

int main (int argc, char** argv)
{
    const double seconds = argc > 1 ? std::max (0.01, std::atof (argv[1])) : 2.0;
    std::printf ("%-34s %5s %6s %9s %10s %9s\n", "", "heads", "modes", "contacts", "ns/sample", "x real");

    const auto full = snare (2000.0);
    for (const char* kernel : { "baseline", "avx2", "avx512" })
        if (engine::kernelNamed (kernel).name == std::string (kernel))
            line ((std::string ("full drum, 3 microphones, ") + kernel).c_str(), play (full, seconds, kernel));

    auto quiet = full;
    quiet.wires.on = false;
    const auto withWires = play (full, seconds, nullptr), withoutWires = play (quiet, seconds, nullptr);
    line ("without wires", withoutWires);

    auto dense = full;
    dense.modes.isUniform = false;
    const auto denseCost = play (dense, std::min (seconds, 1.0), nullptr);
    line ("dense coupling", denseCost);
    std::printf ("wires: %.1f times faster than dense coupling\n",
                 (denseCost.nanoseconds - withoutWires.nanoseconds) / (withWires.nanoseconds - withoutWires.nanoseconds));

    auto bare = quiet;
    bare.microphones.clear();
    // Nothing may fade, or the drum would fall asleep and cost nothing.
    for (auto& mode : bare.modes.modes)
        mode.decay = {};
    const auto bank = play (bare, seconds, nullptr, false);
    line ("bank alone, nobody listening", bank);
#if defined(HAS_HAND_WRITTEN_LOOP)
    if (__builtin_cpu_supports ("avx2") && __builtin_cpu_supports ("fma"))
    {
        const double hand = handWrittenBank (bank.modes, static_cast<int> (seconds * 48000.0));
        std::printf ("hand-written bank of %d modes: %.0f ns/sample; ours takes %.2f times as long\n", bank.modes, hand,
                     bank.nanoseconds / hand);
    }
#endif

    std::printf ("\nhighest frequency, strands x points:\n");
    for (const double highest : { 1000.0, 2000.0, 3000.0 })
    {
        auto setup = snare (highest);
        for (const auto& [strands, points] : { std::pair{ 4, 8 }, std::pair{ 8, 8 }, std::pair{ 8, 12 }, std::pair{ 8, 16 } })
        {
            setup.wireDetail.strands = strands;
            setup.wireDetail.points = points;
            const std::string name = std::to_string (static_cast<int> (highest)) + " Hz, " + std::to_string (strands) + " x " +
                                     std::to_string (points);
            line (name.c_str(), play (setup, 0.5 * seconds, nullptr));
        }
    }
    return 0;
}
