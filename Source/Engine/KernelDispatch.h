#pragma once

#include "KernelView.h"

namespace engine
{

/** Run-time kernel dispatch: an inner loop and its name. */
template <typename Scalar>
struct KernelChoice
{
    KernelFunction<Scalar> run;
    const char* name; ///< "baseline", "avx2", "avx512"; "exact" in double precision
};

/** The loop of this name, for benchmarks and tests; the baseline if the processor or the build has none. */
KernelChoice<float> kernelNamed (const char* name) noexcept;

/** The fastest loop of this precision that the processor can run. */
template <typename Scalar>
KernelChoice<Scalar> kernelFor() noexcept;

template <>
KernelChoice<float> kernelFor<float>() noexcept;
template <>
KernelChoice<double> kernelFor<double>() noexcept;

} // namespace engine
