#pragma once

#if defined(__SSE2__) || defined(_M_X64)
#include <xmmintrin.h>
#define SNAREWRIGHT_HAS_MXCSR 1
#endif

namespace engine
{

/** While alive, numbers too small for full precision count as zero on this thread: on many processors they would slow a fading
   drum a hundredfold. Puts the former setting back at the end. */
class ScopedFlush
{
public:
#if defined(SNAREWRIGHT_HAS_MXCSR)
    ScopedFlush() noexcept : former (_mm_getcsr())
    {
        _mm_setcsr (former | 0x8040u);
    }
    ~ScopedFlush() noexcept
    {
        _mm_setcsr (former);
    }
#elif defined(__aarch64__) && defined(__GNUC__)
    ScopedFlush() noexcept
    {
        asm volatile("mrs %0, fpcr" : "=r"(former));
        asm volatile("msr fpcr, %0" ::"r"(former | (1ull << 24)));
    }
    ~ScopedFlush() noexcept
    {
        asm volatile("msr fpcr, %0" ::"r"(former));
    }
#else
    ScopedFlush() noexcept = default;
#endif
    ScopedFlush (const ScopedFlush&) = delete;
    ScopedFlush& operator= (const ScopedFlush&) = delete;

private:
#if defined(SNAREWRIGHT_HAS_MXCSR)
    unsigned former;
#elif defined(__aarch64__) && defined(__GNUC__)
    unsigned long long former = 0;
#endif
};

} // namespace engine
