#include "Trial.h"

#include <cmath>
#include <cstdio>
#include <cstdlib>

/** How well random drums are fitted at five ratios of signal to noise.
      fit-accuracy [drums = 500] [patch] */
int main (int argc, char** argv)
{
    const int drums = argc > 1 ? std::atoi (argv[1]) : 500;
    const bool hasPatchWalk = argc > 2;

    if (drums < 1 || drums > 100000)
        return 2;

    std::printf ("%d random drums, one lug 20 cents off%s\n", drums, hasPatchWalk ? ", second walk with a weight" : "");
    std::printf ("%8s %8s %14s %14s %12s %10s\n", "S/N dB", "fitted", "note < 3 c", "tension < 2 %", "axis named", "lug named");

    for (const double signalToNoise : { 40.0, 30.0, 20.0, 10.0, 5.0 })
    {
        int fitted = 0, note = 0, tension = 0, axis = 0, lug = 0;

        for (int i = 0; i < drums; ++i)
        {
            const auto outcome = synthetic::tryDrum (static_cast<unsigned> (i + 1), signalToNoise, hasPatchWalk);

            if (! outcome.isPossible)
                continue;

            ++fitted;
            note += std::abs (outcome.noteCents) < 3.0 ? 1 : 0;
            tension += std::abs (outcome.tensionShare) < 0.02 ? 1 : 0;
            axis += outcome.isAxisNamed ? 1 : 0;
            lug += outcome.isLugNamed ? 1 : 0;
        }

        const auto percent = [drums] (int count) { return 100.0 * count / drums; };
        std::printf ("%8.0f %7.1f%% %13.1f%% %13.1f%% %11.1f%% %9.1f%%\n", signalToNoise, percent (fitted), percent (note),
                     percent (tension), percent (axis), percent (lug));
        std::fflush (stdout);
    }

    return 0;
}
