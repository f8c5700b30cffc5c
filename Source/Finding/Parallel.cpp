#include "Parallel.h"

#include <algorithm>
#include <chrono>
#include <condition_variable>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

namespace finding
{

#ifdef __EMSCRIPTEN__

/** In a browser all are done in turn: threads need headers that only a server sends. */
void inParallel (std::size_t count, unsigned, const std::function<void (std::size_t)>& job, const std::atomic<bool>& cancel,
                 const std::function<void (std::size_t)>& progress)
{
    for (std::size_t i = 0; i < count && ! cancel; ++i)
        job (i);

    if (progress)
        progress (count);
}

#else

void inParallel (std::size_t count, unsigned threads, const std::function<void (std::size_t)>& job,
                 const std::atomic<bool>& cancel, const std::function<void (std::size_t)>& progress)
{
    std::atomic<std::size_t> next{ 0 }, done{ 0 };
    std::atomic<bool> failed{ false };
    std::exception_ptr failure;
    std::mutex mutex;
    std::condition_variable ended;
    const auto workers =
        std::min<std::size_t> (std::clamp (threads > 0 ? threads : std::thread::hardware_concurrency(), 1u, 64u), count);
    std::size_t working = workers;

    const auto work = [&]
    {
        for (auto i = next++; i < count && ! cancel && ! failed; i = next++)
        {
            try
            {
                job (i);
                ++done;
            }
            catch (...)
            {
                const std::lock_guard lock (mutex);
                failure = std::current_exception();
                failed = true;
            }
        }

        const std::lock_guard lock (mutex);
        --working;
        ended.notify_all();
    };

    std::vector<std::thread> pool;

    for (std::size_t w = 0; w < workers; ++w)
        pool.emplace_back (work);

    std::unique_lock waiting (mutex);

    while (working > 0)
    {
        ended.wait_for (waiting, std::chrono::milliseconds (50));

        if (progress)
            progress (done);
    }

    waiting.unlock();

    for (auto& thread : pool)
        thread.join();

    if (failure)
        std::rethrow_exception (failure);
}

#endif

} // namespace finding
