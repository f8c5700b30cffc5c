#include "Sheets/Atlas.h"
#include "tests/bench/TableRow.h"

#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
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
      atlas-benchmark [notes = 40] [intervals = 25] */
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
    const auto name = "atlas of " + std::to_string (request.notes * request.intervals) + " tunings";
    bench::printRow (name + ", all processors", all.seconds, "s", "one processor", one.seconds / all.seconds);
    bench::printRow (name + ", one processor: peak memory", one.megabytes, "MB");
    bench::printRow (name + ", all processors: peak memory", all.megabytes, "MB");
    bench::printRow ("one tuning: peak memory", alone.megabytes, "MB");
    return 0;
}
