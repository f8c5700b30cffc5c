#include "Sheets/Atlas.h"

#include <chrono>
#include <cstdio>
#include <cstdlib>

/** A thousand tunings on all processors against the same one at a time.
      atlas-benchmark [notes = 40] [intervals = 25] */
int main (int argc, char** argv)
{
    sheets::AtlasRequest request;
    request.notes = argc > 1 ? std::atoi (argv[1]) : 40;
    request.intervals = argc > 2 ? std::atoi (argv[2]) : 25;
    request.lowestNote = 130.0;
    request.highestNote = 220.0;
    const std::atomic<bool> cancel{ false };

    const auto time = [&] (unsigned threads)
    {
        request.threads = threads;
        const auto start = std::chrono::steady_clock::now();
        const auto atlas = sheets::makeAtlas (request, {}, cancel);
        const std::chrono::duration<double> passed = std::chrono::steady_clock::now() - start;
        return std::pair{ passed.count(), atlas.points.size() };
    };

    const auto [one, count] = time (1);
    const auto [all, same] = time (0);
    std::printf ("%zu tunings: %.2f s one at a time, %.2f s on all processors, ratio %.2f; %.1f kB of results\n", count, one, all,
                 one / all, static_cast<double> (same * sizeof (sheets::AtlasPoint)) / 1024.0);
    return 0;
}
