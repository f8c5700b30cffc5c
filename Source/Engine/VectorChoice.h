#pragma once

#include "KernelView.h"

namespace engine
{

/** An inner loop. */
template <typename Scalar>
struct KernelChoice
{
    KernelFunction<Scalar> run;
    const char* name; ///< "baseline", "avx2", "avx512"; "exact" in double precision
};

/** One loop by name, for benchmarks and tests; falls back to the baseline where the processor or the build has no such loop. */
KernelChoice<float> kernelNamed (const char* name) noexcept;

/** The fastest loop of a precision that this processor can run. */
template <typename Scalar>
KernelChoice<Scalar> kernelFor() noexcept;

} // namespace engine
