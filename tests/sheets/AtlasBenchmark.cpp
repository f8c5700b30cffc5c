#include "Sheets/Atlas.h"

#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <cstdio>
#include <cstdlib>

namespace
{
struct Cost
{
    double seconds = 0.0, megabytes = 0.0; ///< megabytes at most in memory, the program itself included
};

/** Makes the atlas in a process of its own, whose peak of memory is then its alone. */
Cost costOf (sheets::AtlasRequest request, unsigned threads)
{
    request.threads = threads;
    const auto start = std::chrono::steady_clock::now();
    const pid_t child = fork();

    if (child < 0)
        std::exit (1);

    if (child == 0)
    {
        const std::atomic<bool> cancel{ false };
        const auto atlas = sheets::makeAtlas (request, {}, cancel);
        _exit (atlas.isComplete ? 0 : 1);
    }

    int status = 0;
    rusage used{};

    if (wait4 (child, &status, 0, &used) != child || status != 0)
        std::exit (1);

    const std::chrono::duration<double> passed = std::chrono::steady_clock::now() - start;
    return { passed.count(), static_cast<double> (used.ru_maxrss) / 1024.0 };
}
} // namespace

/** An atlas of 1000 tunings on all processors against the same on one, and against one tuning alone.
      atlas-benchmark [notes = 40] [intervals = 25]
    Measured on two processors that were busy with other work: 17.8 s on one, 11.9 s on both, ratio 1.49; peak memory 6.4 MB and
    7.4 MB, ratio 1.16; 6.3 MB for one tuning alone. */
int main (int argc, char** argv)
{
    sheets::AtlasRequest request;
    request.notes = argc > 1 ? std::atoi (argv[1]) : 40;
    request.intervals = argc > 2 ? std::atoi (argv[2]) : 25;
    request.lowestNote = 130.0;
    request.highestNote = 220.0;
    auto single = request;
    single.notes = single.intervals = 1;

    const auto alone = costOf (single, 1), one = costOf (request, 1), all = costOf (request, 0);
    std::printf ("%d tunings: %.2f s one at a time, %.2f s on all processors, ratio %.2f\n", request.notes * request.intervals,
                 one.seconds, all.seconds, one.seconds / all.seconds);
    std::printf ("peak memory: %.1f MB one at a time, %.1f MB on all processors, ratio %.2f; %.1f MB for one tuning alone\n",
                 one.megabytes, all.megabytes, all.megabytes / one.megabytes, alone.megabytes);
    return 0;
}
