#include "Trial.h"

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

namespace
{
double percent (int count, int drums)
{
    return 100.0 * count / drums;
}

/** Walks round one head. */
void tryWalks (int drums, double signalToNoise, bool hasPatchWalk)
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

    std::printf ("%8.0f %7.1f%% %13.1f%% %13.1f%% %11.1f%% %9.1f%%\n", signalToNoise, percent (fitted, drums),
                 percent (note, drums), percent (tension, drums), percent (axis, drums), percent (lug, drums));
}

/** Strikes of the whole drum; batter and resonant head in turn. */
void tryStrikes (int drums, double signalToNoise)
{
    int fitted = 0, note[2]{}, tension[2]{}, within[2]{};

    for (int i = 0; i < drums; ++i)
    {
        const auto outcome = synthetic::tryStrikes (static_cast<unsigned> (i + 1), signalToNoise);

        if (! outcome.isPossible)
            continue;

        ++fitted;

        for (int h = 0; h < 2; ++h)
        {
            note[h] += std::abs (outcome.noteCents[h]) < 3.0 ? 1 : 0;
            tension[h] += std::abs (outcome.tensionShare[h]) < 0.02 ? 1 : 0;
            within[h] += std::abs (outcome.pull[h]) < 2.0 ? 1 : 0;
        }
    }

    std::printf ("%8.0f %7.1f%%", signalToNoise, percent (fitted, drums));

    for (const auto* counts : { note, tension, within })
        std::printf (" %8.1f%% %8.1f%%", percent (counts[0], drums), percent (counts[1], drums));

    std::printf ("\n");
}
} // namespace

/** How well random drums are fitted, percent of all drums.
      fit-accuracy [drums = 500] [walk | weight | strikes] [decibels...]
    The ratios of signal to noise are 40, 30, 20, 10 and 5 dB if not given. */
int main (int argc, char** argv)
{
    const int drums = argc > 1 ? std::atoi (argv[1]) : 500;
    const std::string heard = argc > 2 ? argv[2] : "walk";
    std::vector<double> ratios;

    for (int i = 3; i < argc; ++i)
        ratios.push_back (std::atof (argv[i]));

    if (ratios.empty())
        ratios = { 40.0, 30.0, 20.0, 10.0, 5.0 };

    if (drums < 1 || drums > 100000 || (heard != "walk" && heard != "weight" && heard != "strikes"))
        return 2;

    if (heard == "strikes")
    {
        std::printf ("%d random drums, six strikes each; batter, resonant\n", drums);
        std::printf ("%8s %8s %19s %19s %19s\n", "S/N dB", "fitted", "notes < 3 c", "tensions < 2 %", "within 2 sigma");
    }
    else
    {
        std::printf ("%d random drums, one lug 20 cents off%s\n", drums, heard == "weight" ? ", second walk with a weight" : "");
        std::printf ("%8s %8s %14s %14s %12s %10s\n", "S/N dB", "fitted", "note < 3 c", "tension < 2 %", "axis named",
                     "lug named");
    }

    for (const double ratio : ratios)
    {
        if (heard == "strikes")
            tryStrikes (drums, ratio);
        else
            tryWalks (drums, ratio, heard == "weight");

        std::fflush (stdout);
    }

    return 0;
}
