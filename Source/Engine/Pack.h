#pragma once

#include <cmath>

#if defined(__SSE2__)
#include <immintrin.h>
#endif

/** A few numbers that the processor handles at once.

    Where the compiler has vector types they are used, so that the width is what the code says and not what an optimiser finds;
    elsewhere the same operations run over a plain array. Everything here has internal linkage on purpose: the files that include
   it are compiled for different processors, and a linker must never merge their copies. */
namespace engine
{
namespace
{

#if defined(__GNUC__)
#define SNAREWRIGHT_INLINE __attribute__ ((always_inline)) inline
#define SNAREWRIGHT_UNROLL _Pragma ("GCC unroll 16")
#else
#define SNAREWRIGHT_INLINE inline
#define SNAREWRIGHT_UNROLL
#endif

#if defined(__GNUC__)

/** Bits of a comparison, all ones where it holds. */
template <typename Scalar, int lanes>
struct PackMask
{
    typedef Scalar Vector __attribute__ ((vector_size (lanes * sizeof (Scalar))));
    using Bits = decltype (Vector{} < Vector{});
    Bits v;

    friend SNAREWRIGHT_INLINE PackMask operator!= (PackMask a, PackMask b) noexcept { return { a.v ^ b.v }; }

    SNAREWRIGHT_INLINE bool any() const noexcept
    {
#if defined(__AVX__)
        if constexpr (sizeof (Vector) == 32)
            return _mm256_movemask_epi8 ((__m256i)v) != 0;
#endif
#if defined(__SSE2__)
        if constexpr (sizeof (Vector) == 16)
            return _mm_movemask_epi8 ((__m128i)v) != 0;
#endif
        bool found = false;
        for (int i = 0; i < lanes; ++i)
            found = found || v[i] != 0;
        return found;
    }
};

template <typename Scalar, int lanes>
struct Pack
{
    typedef Scalar Vector __attribute__ ((vector_size (lanes * sizeof (Scalar)), may_alias));
    using Mask = PackMask<Scalar, lanes>;
    Vector v;

    static SNAREWRIGHT_INLINE Pack load (const Scalar* from) noexcept { return { *reinterpret_cast<const Vector*> (from) }; }
    static SNAREWRIGHT_INLINE Pack all (Scalar x) noexcept { return { Vector{} + x }; }
    static SNAREWRIGHT_INLINE Pack zero() noexcept { return { Vector{} }; }
    SNAREWRIGHT_INLINE void store (Scalar* to) const noexcept { *reinterpret_cast<Vector*> (to) = v; }

    friend SNAREWRIGHT_INLINE Pack operator+ (Pack a, Pack b) noexcept { return { a.v + b.v }; }
    friend SNAREWRIGHT_INLINE Pack operator- (Pack a, Pack b) noexcept { return { a.v - b.v }; }
    friend SNAREWRIGHT_INLINE Pack operator* (Pack a, Pack b) noexcept { return { a.v * b.v }; }
    friend SNAREWRIGHT_INLINE Pack operator/ (Pack a, Pack b) noexcept { return { a.v / b.v }; }
    friend SNAREWRIGHT_INLINE Mask operator> (Pack a, Pack b) noexcept { return { a.v > b.v }; }

    static SNAREWRIGHT_INLINE Pack select (Mask where, Pack a, Pack b) noexcept { return { where.v ? a.v : b.v }; }

    SNAREWRIGHT_INLINE Pack root() const noexcept
    {
#if defined(__AVX__)
        if constexpr (sizeof (Vector) == 32 && sizeof (Scalar) == 4)
            return { (Vector)_mm256_sqrt_ps ((__m256)v) };
#endif
#if defined(__SSE2__)
        if constexpr (sizeof (Vector) == 16 && sizeof (Scalar) == 4)
            return { (Vector)_mm_sqrt_ps ((__m128)v) };
        if constexpr (sizeof (Vector) == 16 && sizeof (Scalar) == 8)
            return { (Vector)_mm_sqrt_pd ((__m128d)v) };
#endif
        Pack r = *this;
        for (int i = 0; i < lanes; ++i)
            r.v[i] = std::sqrt (v[i]);
        return r;
    }

    SNAREWRIGHT_INLINE Scalar operator[] (int i) const noexcept
    {
        return v[i];
    }
};

#else

template <typename Scalar, int lanes>
struct PackMask
{
    bool v[lanes];

    friend PackMask operator!= (PackMask a, PackMask b) noexcept
    {
        for (int i = 0; i < lanes; ++i)
            a.v[i] = a.v[i] != b.v[i];
        return a;
    }

    bool any() const noexcept
    {
        bool found = false;
        for (int i = 0; i < lanes; ++i)
            found = found || v[i];
        return found;
    }
};

template <typename Scalar, int lanes>
struct Pack
{
    using Mask = PackMask<Scalar, lanes>;
    Scalar v[lanes];

    template <typename Operation>
    static Pack each (Pack a, Pack b, Operation operation) noexcept
    {
        for (int i = 0; i < lanes; ++i)
            a.v[i] = operation (a.v[i], b.v[i]);
        return a;
    }

    static Pack load (const Scalar* from) noexcept
    {
        Pack p;
        for (int i = 0; i < lanes; ++i)
            p.v[i] = from[i];
        return p;
    }

    static Pack all (Scalar x) noexcept
    {
        Pack p;
        for (int i = 0; i < lanes; ++i)
            p.v[i] = x;
        return p;
    }

    static Pack zero() noexcept { return all (Scalar (0)); }

    void store (Scalar* to) const noexcept
    {
        for (int i = 0; i < lanes; ++i)
            to[i] = v[i];
    }

    friend Pack operator+ (Pack a, Pack b) noexcept
    {
        return each (a, b, [] (Scalar x, Scalar y) { return x + y; });
    }
    friend Pack operator- (Pack a, Pack b) noexcept
    {
        return each (a, b, [] (Scalar x, Scalar y) { return x - y; });
    }
    friend Pack operator* (Pack a, Pack b) noexcept
    {
        return each (a, b, [] (Scalar x, Scalar y) { return x * y; });
    }
    friend Pack operator/ (Pack a, Pack b) noexcept
    {
        return each (a, b, [] (Scalar x, Scalar y) { return x / y; });
    }

    friend Mask operator> (Pack a, Pack b) noexcept
    {
        Mask m;
        for (int i = 0; i < lanes; ++i)
            m.v[i] = a.v[i] > b.v[i];
        return m;
    }

    static Pack select (Mask where, Pack a, Pack b) noexcept
    {
        for (int i = 0; i < lanes; ++i)
            a.v[i] = where.v[i] ? a.v[i] : b.v[i];
        return a;
    }

    Pack root() const noexcept
    {
        Pack r = *this;
        for (int i = 0; i < lanes; ++i)
            r.v[i] = std::sqrt (v[i]);
        return r;
    }

    Scalar operator[] (int i) const noexcept { return v[i]; }
};

#endif

template <typename Scalar, int lanes>
SNAREWRIGHT_INLINE Pack<Scalar, lanes> larger (Pack<Scalar, lanes> a, Pack<Scalar, lanes> b) noexcept
{
    return Pack<Scalar, lanes>::select (a > b, a, b);
}

template <typename Scalar, int lanes>
SNAREWRIGHT_INLINE Pack<Scalar, lanes> magnitude (Pack<Scalar, lanes> a) noexcept
{
    return larger (a, Pack<Scalar, lanes>::zero() - a);
}

template <typename Scalar, int lanes>
SNAREWRIGHT_INLINE Scalar sumOf (Pack<Scalar, lanes> a) noexcept
{
    // By halves, so that few additions wait for one another.
    Scalar part[lanes];
    SNAREWRIGHT_UNROLL
    for (int i = 0; i < lanes; ++i)
        part[i] = a[i];
    SNAREWRIGHT_UNROLL
    for (int half = lanes / 2; half > 0; half /= 2)
        SNAREWRIGHT_UNROLL
    for (int i = 0; i < half; ++i)
        part[i] += part[i + half];
    return part[0];
}

template <typename Scalar, int lanes>
SNAREWRIGHT_INLINE Scalar largestOf (Pack<Scalar, lanes> a) noexcept
{
    Scalar most = a[0];
    SNAREWRIGHT_UNROLL
    for (int i = 1; i < lanes; ++i)
        most = a[i] > most ? a[i] : most;
    return most;
}

/** The sum of each of eight packs, stored in a row. */
template <typename Scalar, int lanes>
SNAREWRIGHT_INLINE void storeSums (const Pack<Scalar, lanes> (&packs)[8], Scalar* to) noexcept
{
#if defined(__AVX__)
    if constexpr (lanes == 8 && sizeof (Scalar) == 4)
    {
        const auto pair = [&] (int i) { return _mm256_hadd_ps ((__m256)packs[i].v, (__m256)packs[i + 1].v); };
        const __m256 low = _mm256_hadd_ps (pair (0), pair (2)), high = _mm256_hadd_ps (pair (4), pair (6));
        _mm256_store_ps (to, _mm256_add_ps (_mm256_permute2f128_ps (low, high, 0x20), _mm256_permute2f128_ps (low, high, 0x31)));
        return;
    }
#endif
    for (int i = 0; i < 8; ++i)
        to[i] = sumOf (packs[i]);
}

} // namespace
} // namespace engine
