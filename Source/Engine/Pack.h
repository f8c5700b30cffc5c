#pragma once

/** A few numbers that the processor handles at once.

    Where the compiler has vector types they are used, so that the width is what the code says and not what an optimiser finds;
    elsewhere the same loops run over a plain array. Everything here has internal linkage on purpose: the files that include it
   are compiled for different processors, and a linker must never merge their copies. */
namespace engine
{
namespace
{

#if defined(__GNUC__)
#define SNAREWRIGHT_INLINE __attribute__ ((always_inline)) inline
#else
#define SNAREWRIGHT_INLINE inline
#endif

#if defined(__GNUC__)

template <typename Scalar, int lanes>
struct Pack
{
    typedef Scalar Vector __attribute__ ((vector_size (lanes * sizeof (Scalar)), may_alias));
    Vector v;

    static SNAREWRIGHT_INLINE Pack load (const Scalar* from) noexcept { return { *reinterpret_cast<const Vector*> (from) }; }
    static SNAREWRIGHT_INLINE Pack all (Scalar x) noexcept { return { Vector{} + x }; }
    SNAREWRIGHT_INLINE void store (Scalar* to) const noexcept { *reinterpret_cast<Vector*> (to) = v; }

    friend SNAREWRIGHT_INLINE Pack operator+ (Pack a, Pack b) noexcept { return { a.v + b.v }; }
    friend SNAREWRIGHT_INLINE Pack operator- (Pack a, Pack b) noexcept { return { a.v - b.v }; }
    friend SNAREWRIGHT_INLINE Pack operator* (Pack a, Pack b) noexcept { return { a.v * b.v }; }

    SNAREWRIGHT_INLINE Scalar sum() const noexcept
    {
        Scalar total = 0;
        for (int i = 0; i < lanes; ++i)
            total += v[i];
        return total;
    }
};

#else

template <typename Scalar, int lanes>
struct Pack
{
    Scalar v[lanes];

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

    void store (Scalar* to) const noexcept
    {
        for (int i = 0; i < lanes; ++i)
            to[i] = v[i];
    }

    friend Pack operator+ (Pack a, Pack b) noexcept
    {
        for (int i = 0; i < lanes; ++i)
            a.v[i] += b.v[i];
        return a;
    }

    friend Pack operator- (Pack a, Pack b) noexcept
    {
        for (int i = 0; i < lanes; ++i)
            a.v[i] -= b.v[i];
        return a;
    }

    friend Pack operator* (Pack a, Pack b) noexcept
    {
        for (int i = 0; i < lanes; ++i)
            a.v[i] *= b.v[i];
        return a;
    }

    Scalar sum() const noexcept
    {
        Scalar total = 0;
        for (int i = 0; i < lanes; ++i)
            total += v[i];
        return total;
    }
};

#endif

} // namespace
} // namespace engine
