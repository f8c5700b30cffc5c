#pragma once

#include <cstdint>

/** Watches what a thread does that an audio thread must not. The program that links AudioThreadWatch.cpp has its allocation and
    locking functions replaced by ones that count; system calls are trapped by the kernel (seccomp), so that none is missed.
   Linux.
*/
namespace watch
{

struct Counts
{
    std::uint64_t allocations = 0; ///< malloc and its kin, operator new
    std::uint64_t frees = 0;       ///< of something
    std::uint64_t locks = 0;       ///< mutexes, read-write locks, conditions, semaphores: taken, tried or signalled
    std::uint64_t systemCalls = 0; ///< of any kind
    long lastSystemCall = -1;      ///< its number

    std::uint64_t all() const noexcept { return allocations + frees + locks + systemCalls; }
};

/** Counts on this thread until stop(). */
void start() noexcept;
Counts stop() noexcept;

/** From here on, system calls of this thread are trapped instead of done, for as long as the thread lives; the thread must then
   do nothing but compute and end. False if the kernel does not allow it. */
bool trapSystemCalls() noexcept;

} // namespace watch
