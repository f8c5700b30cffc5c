#pragma once

#include <cstddef>
#include <new>
#include <vector>

namespace engine
{

/** Allocates memory aligned to cache lines, so that SIMD loads of whole packs are aligned. */
template <typename T>
struct CacheLineAllocator
{
    using value_type = T;
    static constexpr std::align_val_t alignment{ 64 };

    CacheLineAllocator() = default;
    template <typename U>
    CacheLineAllocator (const CacheLineAllocator<U>&) noexcept
    {
    }

    T* allocate (std::size_t count) { return static_cast<T*> (::operator new (count * sizeof (T), alignment)); }
    void deallocate (T* memory, std::size_t) noexcept { ::operator delete (memory, alignment); }

    template <typename U>
    bool operator== (const CacheLineAllocator<U>&) const noexcept
    {
        return true;
    }
};

template <typename T>
using AlignedArray = std::vector<T, CacheLineAllocator<T>>;

/** An Eigen vector, converted. */
template <typename Scalar, typename Vector>
AlignedArray<Scalar> packed (const Vector& values)
{
    AlignedArray<Scalar> out (static_cast<std::size_t> (values.size()));
    for (decltype (values.size()) i = 0; i < values.size(); ++i)
        out[static_cast<std::size_t> (i)] = static_cast<Scalar> (values[i]);
    return out;
}

} // namespace engine
