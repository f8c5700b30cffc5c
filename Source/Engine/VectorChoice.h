#pragma once

#include "KernelView.h"

namespace engine
{

/** An inner loop. */
template <typename Scalar>
struct KernelChoice
{
    KernelFunction<Scalar> run;
    const char* name; ///< "sse2", "avx2", "avx512", "portable"
};

/** The fastest loop that this processor can run. */
KernelChoice<float> bestKernel() noexcept;

/** The loop in double precision, for the energy balance. */
KernelChoice<double> exactKernel() noexcept;

/** One loop by name, for benchmarks and tests; falls back to the baseline where the processor or the build has no such loop. */
KernelChoice<float> kernelNamed (const char* name) noexcept;

template <typename Scalar>
KernelChoice<Scalar> kernelFor() noexcept;

} // namespace engine
