#pragma once

#include <atomic>
#include <functional>

namespace finding
{

/** Runs `job (i)` for all i below `count` on several threads, and ends between two jobs when cancelled. What a job throws, it
   throws, once the others have ended.

    @param threads   0: one per processor thread
    @param progress  called with the number of jobs done, from the calling thread, some twenty times a second; may be empty
*/
void inParallel (std::size_t count, unsigned threads, const std::function<void (std::size_t)>& job,
                 const std::atomic<bool>& cancel, const std::function<void (std::size_t)>& progress = {});

} // namespace finding
