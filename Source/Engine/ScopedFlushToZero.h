#pragma once

#if defined(__SSE2__) || defined(_M_X64)
#include <xmmintrin.h>
#define SNAREWRIGHT_HAS_MXCSR 1
#endif

namespace engine
{

/** While alive, denormals are flushed to zero on this thread; on many processors they would slow a decaying drum a hundredfold.
   Restores the former setting. */
class ScopedFlushToZero
{
public:
#if defined(SNAREWRIGHT_HAS_MXCSR)
    ScopedFlushToZero() noexcept : former (_mm_getcsr())
    {
        _mm_setcsr (former | 0x8040u);
    }
    ~ScopedFlushToZero() noexcept
    {
        _mm_setcsr (former);
    }
#elif defined(__aarch64__) && defined(__GNUC__)
    ScopedFlushToZero() noexcept
    {
        asm volatile("mrs %0, fpcr" : "=r"(former));
        asm volatile("msr fpcr, %0" ::"r"(former | (1ull << 24)));
    }
    ~ScopedFlushToZero() noexcept
    {
        asm volatile("msr fpcr, %0" ::"r"(former));
    }
#else
    ScopedFlushToZero() noexcept = default;
#endif
    ScopedFlushToZero (const ScopedFlushToZero&) = delete;
    ScopedFlushToZero& operator= (const ScopedFlushToZero&) = delete;

private:
#if defined(SNAREWRIGHT_HAS_MXCSR)
    unsigned former;
#elif defined(__aarch64__) && defined(__GNUC__)
    unsigned long long former = 0;
#endif
};

} // namespace engine
