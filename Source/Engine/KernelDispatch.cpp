#include "KernelDispatch.h"

#include <cstring>
#include <initializer_list>

namespace engine
{

void runBaseline (KernelView<float>&, float* const*, int);
void runExact (KernelView<double>&, double* const*, int);

#if defined(SNAREWRIGHT_X86_KERNELS)
void runAvx2 (KernelView<float>&, float* const*, int);
void runAvx512 (KernelView<float>&, float* const*, int);
#endif

KernelChoice<float> kernelNamed (const char* name) noexcept
{
#if defined(SNAREWRIGHT_X86_KERNELS)
    // All extensions that KernelAvx512.cpp is compiled for.
    if (std::strcmp (name, "avx512") == 0 && __builtin_cpu_supports ("avx512f") && __builtin_cpu_supports ("avx512vl") &&
        __builtin_cpu_supports ("avx512dq") && __builtin_cpu_supports ("fma"))
        return { runAvx512, "avx512" };
    if (std::strcmp (name, "avx2") == 0 && __builtin_cpu_supports ("avx2") && __builtin_cpu_supports ("fma"))
        return { runAvx2, "avx2" };
#else
    (void)name;
#endif
    return { runBaseline, "baseline" };
}

template <>
KernelChoice<float> kernelFor<float>() noexcept
{
    for (const char* name : { "avx512", "avx2" })
        if (const auto choice = kernelNamed (name); std::strcmp (choice.name, name) == 0)
            return choice;
    return kernelNamed ("baseline");
}

template <>
KernelChoice<double> kernelFor<double>() noexcept
{
    return { runExact, "exact" };
}

} // namespace engine
