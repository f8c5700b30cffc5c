#pragma once

#include "AlwaysInline.h"

#include <cmath>

#if defined(__SSE2__)
#include <immintrin.h>
#elif defined(__wasm_simd128__)
#include <wasm_simd128.h>
#endif

/** A SIMD vector of `lanes` numbers.

    Uses the compiler's vector types where it has them; otherwise the same operations run over a plain array. Everything here has
   internal linkage on purpose: the files that include it are compiled for different instruction sets, and the linker must not
   merge their copies. README.md says why this is no library. */
namespace engine
{
namespace
{

#if defined(__GNUC__)
#define SNAREWRIGHT_UNROLL _Pragma ("GCC unroll 16")
#else
#define SNAREWRIGHT_UNROLL
#endif

// Compilers with vector types and shuffles.
#if defined(__GNUC__) && defined(__has_builtin)
#if __has_builtin(__builtin_shufflevector)
#define SNAREWRIGHT_VECTORS
#endif
#endif

#if defined(SNAREWRIGHT_VECTORS)

/** Bits of a comparison, all ones where it holds. */
template <typename Scalar, int lanes>
struct PackMask
{
    typedef Scalar Vector __attribute__ ((vector_size (lanes * sizeof (Scalar))));
    using Bits = decltype (Vector{} < Vector{});
    Bits v;

    static SNAREWRIGHT_INLINE PackMask none() noexcept { return { Bits{} }; }
    friend SNAREWRIGHT_INLINE PackMask operator!= (PackMask a, PackMask b) noexcept { return { a.v ^ b.v }; }
    friend SNAREWRIGHT_INLINE PackMask operator| (PackMask a, PackMask b) noexcept { return { a.v | b.v }; }

    SNAREWRIGHT_INLINE bool any() const noexcept
    {
#if defined(__AVX__)
        if constexpr (sizeof (Vector) == 32)
            return _mm256_movemask_epi8 ((__m256i)v) != 0;
#endif
#if defined(__SSE2__)
        if constexpr (sizeof (Vector) == 16)
            return _mm_movemask_epi8 ((__m128i)v) != 0;
#elif defined(__wasm_simd128__)
        if constexpr (sizeof (Vector) == 16)
            return wasm_v128_any_true ((v128_t)v);
#endif
        bool found = false;
        for (int i = 0; i < lanes; ++i)
            found = found || v[i] != 0;
        return found;
    }
};

#if defined(__AVX512F__)
/** AVX-512 has mask registers. */
template <>
struct PackMask<float, 16>
{
    __mmask16 v;

    static SNAREWRIGHT_INLINE PackMask none() noexcept { return { 0 }; }
    friend SNAREWRIGHT_INLINE PackMask operator!= (PackMask a, PackMask b) noexcept { return { _kxor_mask16 (a.v, b.v) }; }
    friend SNAREWRIGHT_INLINE PackMask operator| (PackMask a, PackMask b) noexcept { return { _kor_mask16 (a.v, b.v) }; }
    SNAREWRIGHT_INLINE bool any() const noexcept { return v != 0; }
};
#endif

template <typename Scalar, int lanes>
struct Pack
{
    typedef Scalar Vector __attribute__ ((vector_size (lanes * sizeof (Scalar)), may_alias));
    using Mask = PackMask<Scalar, lanes>;
    Vector v;

    static SNAREWRIGHT_INLINE Pack load (const Scalar* from) noexcept { return { *reinterpret_cast<const Vector*> (from) }; }
    // x - 0 is x for negative zero too, unlike x + 0, so that the compiler can drop the operation.
    static SNAREWRIGHT_INLINE Pack broadcast (Scalar x) noexcept { return { x - Vector{} }; }
    static SNAREWRIGHT_INLINE Pack zero() noexcept { return { Vector{} }; }
    SNAREWRIGHT_INLINE void store (Scalar* to) const noexcept { *reinterpret_cast<Vector*> (to) = v; }

    friend SNAREWRIGHT_INLINE Pack operator+ (Pack a, Pack b) noexcept { return { a.v + b.v }; }
    friend SNAREWRIGHT_INLINE Pack operator- (Pack a, Pack b) noexcept { return { a.v - b.v }; }
    friend SNAREWRIGHT_INLINE Pack operator* (Pack a, Pack b) noexcept { return { a.v * b.v }; }
    friend SNAREWRIGHT_INLINE Pack operator/ (Pack a, Pack b) noexcept { return { a.v / b.v }; }
    friend SNAREWRIGHT_INLINE Mask operator> (Pack a, Pack b) noexcept
    {
#if defined(__AVX512F__)
        if constexpr (sizeof (Vector) == 64 && sizeof (Scalar) == 4)
            return { _mm512_cmp_ps_mask ((__m512)a.v, (__m512)b.v, _CMP_GT_OQ) };
        else
#endif
            return { a.v > b.v };
    }

    static SNAREWRIGHT_INLINE Pack select (Mask where, Pack a, Pack b) noexcept
    {
#if defined(__AVX512F__)
        if constexpr (sizeof (Vector) == 64 && sizeof (Scalar) == 4)
            return { (Vector)_mm512_mask_blend_ps (where.v, (__m512)b.v, (__m512)a.v) };
        else
#endif
            return { where.v ? a.v : b.v };
    }

    SNAREWRIGHT_INLINE Pack sqrt() const noexcept
    {
#if defined(__AVX512F__)
        if constexpr (sizeof (Vector) == 64 && sizeof (Scalar) == 4)
            return { (Vector)_mm512_maskz_sqrt_ps (0xffff, (__m512)v) };
        if constexpr (sizeof (Vector) == 64 && sizeof (Scalar) == 8)
            return { (Vector)_mm512_maskz_sqrt_pd (0xff, (__m512d)v) };
#endif
#if defined(__AVX__)
        if constexpr (sizeof (Vector) == 32 && sizeof (Scalar) == 4)
            return { (Vector)_mm256_sqrt_ps ((__m256)v) };
        if constexpr (sizeof (Vector) == 32 && sizeof (Scalar) == 8)
            return { (Vector)_mm256_sqrt_pd ((__m256d)v) };
#endif
#if defined(__SSE2__)
        if constexpr (sizeof (Vector) == 16 && sizeof (Scalar) == 4)
            return { (Vector)_mm_sqrt_ps ((__m128)v) };
        if constexpr (sizeof (Vector) == 16 && sizeof (Scalar) == 8)
            return { (Vector)_mm_sqrt_pd ((__m128d)v) };
#elif defined(__wasm_simd128__)
        if constexpr (sizeof (Vector) == 16 && sizeof (Scalar) == 4)
            return { (Vector)wasm_f32x4_sqrt ((v128_t)v) };
        if constexpr (sizeof (Vector) == 16 && sizeof (Scalar) == 8)
            return { (Vector)wasm_f64x2_sqrt ((v128_t)v) };
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

    static PackMask none() noexcept { return {}; }
    friend PackMask operator| (PackMask a, PackMask b) noexcept
    {
        for (int i = 0; i < lanes; ++i)
            a.v[i] = a.v[i] || b.v[i];
        return a;
    }

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

    static Pack broadcast (Scalar x) noexcept
    {
        Pack p;
        for (int i = 0; i < lanes; ++i)
            p.v[i] = x;
        return p;
    }

    static Pack zero() noexcept { return broadcast (Scalar (0)); }

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

    Pack sqrt() const noexcept
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
SNAREWRIGHT_INLINE Pack<Scalar, lanes> max (Pack<Scalar, lanes> a, Pack<Scalar, lanes> b) noexcept
{
    return Pack<Scalar, lanes>::select (a > b, a, b);
}

template <typename Scalar, int lanes>
SNAREWRIGHT_INLINE Pack<Scalar, lanes> abs (Pack<Scalar, lanes> a) noexcept
{
    return max (a, Pack<Scalar, lanes>::zero() - a);
}

#if defined(SNAREWRIGHT_VECTORS)

/** Applies an operation to the lower and the upper half of a pack. */
template <typename Scalar, int lanes, typename Operation>
SNAREWRIGHT_INLINE Pack<Scalar, lanes / 2> combineHalves (Pack<Scalar, lanes> a, Operation operation) noexcept
{
    using Half = Pack<Scalar, lanes / 2>;
    if constexpr (lanes == 16)
        return operation (Half{ __builtin_shufflevector (a.v, a.v, 0, 1, 2, 3, 4, 5, 6, 7) },
                          Half{ __builtin_shufflevector (a.v, a.v, 8, 9, 10, 11, 12, 13, 14, 15) });
    else if constexpr (lanes == 8)
        return operation (Half{ __builtin_shufflevector (a.v, a.v, 0, 1, 2, 3) },
                          Half{ __builtin_shufflevector (a.v, a.v, 4, 5, 6, 7) });
    else if constexpr (lanes == 4)
        return operation (Half{ __builtin_shufflevector (a.v, a.v, 0, 1) }, Half{ __builtin_shufflevector (a.v, a.v, 2, 3) });
    else
        return operation (Half{ typename Half::Vector{ a.v[0] } }, Half{ typename Half::Vector{ a.v[1] } });
}

#else

template <typename Scalar, int lanes, typename Operation>
Pack<Scalar, lanes / 2> combineHalves (Pack<Scalar, lanes> a, Operation operation) noexcept
{
    Pack<Scalar, lanes / 2> low, high;
    for (int i = 0; i < lanes / 2; ++i)
    {
        low.v[i] = a.v[i];
        high.v[i] = a.v[i + lanes / 2];
    }
    return operation (low, high);
}

#endif

template <typename Scalar, int lanes>
SNAREWRIGHT_INLINE Scalar sumOf (Pack<Scalar, lanes> a) noexcept
{
    // Pairwise, to shorten the dependency chain.
    if constexpr (lanes == 1)
        return a[0];
    else
        return sumOf (combineHalves (a, [] (auto low, auto high) { return low + high; }));
}

template <typename Scalar, int lanes>
SNAREWRIGHT_INLINE Scalar maxOf (Pack<Scalar, lanes> a) noexcept
{
    if constexpr (lanes == 1)
        return a[0];
    else
        return maxOf (combineHalves (a, [] (auto low, auto high) { return max (low, high); }));
}

/** Stores the sums of eight packs. */
template <typename Scalar, int lanes>
SNAREWRIGHT_INLINE void storeSums (const Pack<Scalar, lanes> (&packs)[8], Scalar* to) noexcept
{
#if defined(__AVX__) && defined(SNAREWRIGHT_VECTORS)
    if constexpr (lanes == 8 && sizeof (Scalar) == 4)
    {
        const auto pair = [&] (int i) { return _mm256_hadd_ps ((__m256)packs[i].v, (__m256)packs[i + 1].v); };
        const __m256 low = _mm256_hadd_ps (pair (0), pair (2)), high = _mm256_hadd_ps (pair (4), pair (6));
        _mm256_store_ps (to, _mm256_add_ps (_mm256_permute2f128_ps (low, high, 0x20), _mm256_permute2f128_ps (low, high, 0x31)));
        return;
    }
#endif
#if defined(__AVX512F__) && defined(SNAREWRIGHT_VECTORS)
    if constexpr (lanes == 16 && sizeof (Scalar) == 4)
    {
        // Interleaves two packs while adding their halves, so that each is half as wide.
        const auto halves = [] (auto a, auto b)
        {
            return __builtin_shufflevector (a, b, 0, 1, 2, 3, 4, 5, 6, 7, 16, 17, 18, 19, 20, 21, 22, 23) +
                   __builtin_shufflevector (a, b, 8, 9, 10, 11, 12, 13, 14, 15, 24, 25, 26, 27, 28, 29, 30, 31);
        };
        const auto quarters = [] (auto a, auto b)
        {
            return __builtin_shufflevector (a, b, 0, 1, 2, 3, 8, 9, 10, 11, 16, 17, 18, 19, 24, 25, 26, 27) +
                   __builtin_shufflevector (a, b, 4, 5, 6, 7, 12, 13, 14, 15, 20, 21, 22, 23, 28, 29, 30, 31);
        };
        const auto eighths = [] (auto a, auto b)
        {
            return __builtin_shufflevector (a, b, 0, 1, 16, 17, 4, 5, 20, 21, 8, 9, 24, 25, 12, 13, 28, 29) +
                   __builtin_shufflevector (a, b, 2, 3, 18, 19, 6, 7, 22, 23, 10, 11, 26, 27, 14, 15, 30, 31);
        };
        // The last step takes the sums from four lanes each of packs 0 and 4, 1 and 5, and so on.
        const auto even = quarters (halves (packs[0].v, packs[1].v), halves (packs[2].v, packs[3].v));
        const auto odd = quarters (halves (packs[4].v, packs[5].v), halves (packs[6].v, packs[7].v));
        const auto pairs = eighths (even, odd);
        const auto sums = __builtin_shufflevector (pairs, pairs, 0, 4, 8, 12, 2, 6, 10, 14) +
                          __builtin_shufflevector (pairs, pairs, 1, 5, 9, 13, 3, 7, 11, 15);
        Pack<Scalar, 8>{ sums }.store (to);
        return;
    }
#endif
    for (int i = 0; i < 8; ++i)
        to[i] = sumOf (packs[i]);
}

} // namespace
} // namespace engine
