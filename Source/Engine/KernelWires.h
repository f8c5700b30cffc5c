#pragma once

#include "KernelView.h"
#include "Pack.h"

namespace engine
{
namespace
{

/** The wires against the resonant head, one sample at a time.

    If the layout is symmetric, each mode couples to one of four sums and differences of the quadrants: a parity class. Contacts
   are indexed by quadrant, their motion by class; `fold` converts between them. A combination is a position within a quadrant; a
   pack holds neighbouring combinations of one quadrant or class, so that folding needs no shuffles. */
template <typename Scalar, int lanes>
class WireStep
{
public:
    using P = Pack<Scalar, lanes>;

    explicit WireStep (KernelView<Scalar>& state) noexcept
        : s (state), n (state.combinations), contacts (state.classes * state.combinations)
    {
    }

    bool arePresent() const noexcept { return contacts > 0; }

    /** Computes each contact's compression with all forces at rest, the constants of its equation for this sample and a first
       guess of its force. */
    void begin() noexcept
    {
        // The predicted motion goes into the response array, where prepare() unfolds it.
        for (int c = 0; c < s.classes; ++c)
        {
            const auto& group = s.coupling[c];
            for (int i = 0; i < n; i += tileRows)
                gatherRows (group.shapes + i * group.modes, s.trial + group.firstMode, group.modes, classResponse() + c * n + i);
        }
        s.classes == 4 ? prepare<4>() : prepare<1>();
        computeResponse();
        predicted = freeCompression();
    }

    struct Sweep
    {
        Scalar change, largest; ///< N
    };

    /** One sweep over all contacts: each equation is solved in closed form with a diagonal mobility that bounds the coupling
       matrix from above, which makes a sweep one step of a convergent proximal method. Returns the largest change of force and
       the largest force beyond that at rest. */
    Sweep sweep() noexcept
    {
        const auto swept = s.classes == 4 ? sweepAll<4>() : sweepAll<1>();
        computeResponse();
        return swept;
    }

    /** Takes the sticks' present forces into account. */
    void applySticks() noexcept
    {
        const Scalar* moved[maxStickContacts];
        Scalar pushing[maxStickContacts];
        int count = 0;
        for (int i = 0; i < maxSticks; ++i)
            for (int c = 0; s.sticks[i].active && c < contactsPerStick; ++c)
            {
                const auto& contact = s.sticks[i].contact[static_cast<std::size_t> (c)];
                if (contact.force == 0.0 || contact.isSlip)
                    continue;
                moved[count] = s.stickToWire[i * contactsPerStick + c];
                pushing[count++] = static_cast<Scalar> (contact.force);
            }
        for (int i = 0; i < contacts; i += lanes)
        {
            P sum = P::load (freeCompression() + i);
            for (int j = 0; j < count; ++j)
                sum = sum - P::load (moved[j] + i) * P::broadcast (pushing[j]);
            sum.store (underSticks() + i);
        }
        predicted = underSticks();
    }

    /** How far the wires' forces open three contacts of sticks, whose rows of KernelView::stickToWire are given, m. */
    void moveUnderSticks (const Scalar* const (&rows)[3], double (&moves)[3]) const noexcept
    {
        P sum[3] = { P::zero(), P::zero(), P::zero() };
        for (int i = 0; i < contacts; i += lanes)
        {
            const P beyondRest = P::load (s.force + i) - P::load (s.restForce + i);
            SNAREWRIGHT_UNROLL
            for (int row = 0; row < 3; ++row)
                sum[row] = sum[row] + P::load (rows[row] + i) * beyondRest;
        }
        for (int row = 0; row < 3; ++row)
            moves[row] = static_cast<double> (sumOf (sum[row]));
    }

    /** Summed force of neighbouring contacts beyond rest, N. */
    Scalar forceOf (typename KernelView<Scalar>::ForcePoint point) const noexcept
    {
        // Four at a time, to shorten the dependency chain.
        const Scalar *at = s.force + point.first, *const end = at + point.count;
        Scalar sum = -point.atRest;
        for (; at + 4 <= end; at += 4)
            sum += (at[0] + at[1]) + (at[2] + at[3]);
        for (; at < end; ++at)
            sum += *at;
        return sum;
    }

    /** Adds the contact forces to the modal forces. */
    void scatter() noexcept
    {
        for (int c = 0; c < s.classes; ++c)
        {
            const auto& group = s.coupling[c];
            for (int i = 0; i < n; i += tileRows)
                scatterRows (group.shapes + i * group.modes, classForce() + c * n + i, group.modes, s.push + group.firstMode);
        }
    }

    /** Computes the resulting compressions. */
    void finish() noexcept { s.classes == 4 ? finishAll<4>() : finishAll<1>(); }

private:
    KernelView<Scalar>& s;
    const int n, contacts;
    const Scalar* predicted = nullptr; ///< compression if all wire forces stayed at rest, m

    // Scratch arrays, one entry a contact.
    Scalar* freeCompression() const noexcept { return s.scratch; }
    Scalar* underSticks() const noexcept { return s.scratch + contacts; }
    Scalar* loss() const noexcept { return s.scratch + 2 * contacts; }
    Scalar* openInverse() const noexcept { return s.scratch + 3 * contacts; }
    Scalar* closedInverse() const noexcept { return s.scratch + 4 * contacts; }
    Scalar* boundary() const noexcept { return s.scratch + 5 * contacts; }
    Scalar* classForce() const noexcept { return s.scratch + 6 * contacts; } ///< beyond that at rest
    Scalar* classResponse() const noexcept { return s.scratch + 7 * contacts; }

    /** Converts between quadrants and classes: the orthonormal Hadamard transform is its own inverse. */
    template <int quadrants>
    static SNAREWRIGHT_INLINE void fold (P (&x)[quadrants]) noexcept
    {
        if constexpr (quadrants == 4)
        {
            const P half = P::broadcast (Scalar (0.5));
            const P sumOfFirst = half * (x[0] + x[1]), differenceOfFirst = half * (x[0] - x[1]);
            const P sumOfLast = half * (x[2] + x[3]), differenceOfLast = half * (x[2] - x[3]);
            x[0] = sumOfFirst + sumOfLast;
            x[1] = differenceOfFirst + differenceOfLast;
            x[2] = sumOfFirst - sumOfLast;
            x[3] = differenceOfFirst - differenceOfLast;
        }
    }

    template <int quadrants>
    SNAREWRIGHT_INLINE void load (P (&x)[quadrants], const Scalar* from, int i) const noexcept
    {
        SNAREWRIGHT_UNROLL
        for (int q = 0; q < quadrants; ++q)
            x[q] = P::load (from + q * n + i);
    }

    template <int quadrants>
    SNAREWRIGHT_INLINE void store (const P (&x)[quadrants], Scalar* to, int i) const noexcept
    {
        SNAREWRIGHT_UNROLL
        for (int q = 0; q < quadrants; ++q)
            x[q].store (to + q * n + i);
    }

    /** Dot products of a tile's eight rows with the trial positions; eight sums stay in registers. */
    static SNAREWRIGHT_INLINE void gatherRows (const Scalar* shapes, const Scalar* values, int modes, Scalar* to) noexcept
    {
        P sums[tileRows];
        SNAREWRIGHT_UNROLL
        for (int r = 0; r < tileRows; ++r)
            sums[r] = P::zero();
        for (int k = 0; k < modes; k += tileModes, shapes += tileRows * tileModes)
            SNAREWRIGHT_UNROLL
        for (int part = 0; part < tileModes; part += lanes)
        {
            const P value = P::load (values + k + part);
            SNAREWRIGHT_UNROLL
            for (int r = 0; r < tileRows; ++r)
                sums[r] = sums[r] + value * P::load (shapes + r * tileModes + part);
        }
        storeSums (sums, to);
    }

    /** The transpose: adds the forces of eight combinations, kept in registers, to the modal forces. */
    static SNAREWRIGHT_INLINE void scatterRows (const Scalar* shapes, const Scalar* forces, int modes, Scalar* pushes) noexcept
    {
        P force[tileRows];
        SNAREWRIGHT_UNROLL
        for (int r = 0; r < tileRows; ++r)
            force[r] = P::broadcast (forces[r]);
        for (int k = 0; k < modes; k += tileModes, shapes += tileRows * tileModes)
            SNAREWRIGHT_UNROLL
        for (int part = 0; part < tileModes; part += lanes)
        {
            // Two sums, to shorten the dependency chain.
            P even = P::load (pushes + k + part), odd = P::zero();
            SNAREWRIGHT_UNROLL
            for (int r = 0; r < tileRows; r += 2)
            {
                even = even - force[r] * P::load (shapes + r * tileModes + part);
                odd = odd + force[r + 1] * P::load (shapes + (r + 1) * tileModes + part);
            }
            (even - odd).store (pushes + k + part);
        }
    }

    template <int quadrants>
    void prepare() noexcept
    {
        const P zero = P::zero(), one = P::broadcast (Scalar (1)), half = P::broadcast (Scalar (0.5));
        const P resistance = P::broadcast (s.contactResistance);
        for (int i = 0; i < n; i += lanes)
        {
            P moved[quadrants], deviation[quadrants];
            load (moved, classResponse(), i);
            fold (moved);
            SNAREWRIGHT_UNROLL
            for (int q = 0; q < quadrants; ++q)
            {
                const int at = q * n + i;
                (moved[q] + P::load (s.restCompression + at)).store (freeCompression() + at);
                const P now = P::load (s.compression + at), metric = P::load (s.metric + at);
                const P losses = P::load (s.lossRate + at) * max (now, zero) + P::select (now > zero, resistance, zero);
                const P base = one + metric * losses, halfDK = half * metric * P::load (s.stiffness + at);
                losses.store (loss() + at);
                // One division for two inverses.
                const P closedBase = base + halfDK;
                const P both = one / (base * closedBase);
                (both * closedBase).store (openInverse() + at);
                (both * base).store (closedInverse() + at);
                const P e = P::load (s.compressionBefore + at);
                (halfDK * max (e, zero) - e * base).store (boundary() + at);
                // Linear extrapolation; a wrong guess only costs another sweep.
                const P last = P::load (s.force + at), guess = max (last + last - P::load (s.forceBefore + at), zero);
                last.store (s.forceBefore + at);
                guess.store (s.force + at);
                deviation[q] = guess - P::load (s.restForce + at);
            }
            fold (deviation);
            store (deviation, classForce(), i);
        }
    }

    /** Responses of the classes: mobility × wire forces beyond rest. */
    void computeResponse() noexcept { s.classes == 4 ? computeResponseAll<4>() : computeResponseAll<1>(); }

    template <int quadrants>
    void computeResponseAll() noexcept
    {
        // Enough sums to hide the latency of additions, few enough to stay in registers.
        constexpr int packs = quadrants == 1 ? 8 : lanes >= 16 ? 1 : 2;
        int i = 0;
        for (; i + packs * lanes <= n; i += packs * lanes)
            computeResponseTile<quadrants, packs> (i);
        for (; i < n; i += lanes)
            computeResponseTile<quadrants, 1> (i);
    }

    template <int quadrants, int packs>
    SNAREWRIGHT_INLINE void computeResponseTile (int i) noexcept
    {
        constexpr int chains = 8 / (quadrants * packs);
        P sums[chains][quadrants * packs];
        SNAREWRIGHT_UNROLL
        for (int chain = 0; chain < chains; ++chain)
            SNAREWRIGHT_UNROLL
        for (int sum = 0; sum < quadrants * packs; ++sum)
            sums[chain][sum] = P::zero();
        for (int row = 0; row < n; row += chains)
            SNAREWRIGHT_UNROLL
        for (int chain = 0; chain < chains; ++chain)
            SNAREWRIGHT_UNROLL
        for (int c = 0; c < quadrants; ++c)
        {
            const P force = P::broadcast (classForce()[c * n + row + chain]);
            SNAREWRIGHT_UNROLL
            for (int p = 0; p < packs; ++p)
            {
                P& sum = sums[chain][c * packs + p];
                sum = sum + force * P::load (s.coupling[c].mobility + (row + chain) * n + i + p * lanes);
            }
        }
        SNAREWRIGHT_UNROLL
        for (int c = 0; c < quadrants; ++c)
            SNAREWRIGHT_UNROLL
        for (int p = 0; p < packs; ++p)
        {
            P sum = sums[0][c * packs + p];
            SNAREWRIGHT_UNROLL
            for (int chain = 1; chain < chains; ++chain)
                sum = sum + sums[chain][c * packs + p];
            sum.store (classResponse() + c * n + i + p * lanes);
        }
    }

    /** The equation is r + D·f(r) = target with r the move over two samples, f the discrete gradient of K/2·max(η, 0)² plus
        loss·r. */
    template <int quadrants>
    Sweep sweepAll() noexcept
    {
        const P zero = P::zero(), half = P::broadcast (Scalar (0.5));
        P change = zero, largest = zero;
        for (int i = 0; i < n; i += lanes)
        {
            P response[quadrants], b[quadrants], inverse[quadrants], move[quadrants], spring[quadrants], deviation[quadrants];
            typename P::Mask endsClosed[quadrants], beginsClosed[quadrants], crosses = P::Mask::none();
            load (response, classResponse(), i);
            fold (response);
            SNAREWRIGHT_UNROLL
            for (int q = 0; q < quadrants; ++q)
            {
                const int at = q * n + i;
                const P D = P::load (s.metric + at), K = P::load (s.stiffness + at), e = P::load (s.compressionBefore + at);
                const P target = P::load (predicted + at) - e - response[q] + D * P::load (s.force + at);
                // Closed at the end? The left side increases with the move, so its value at the boundary decides.
                endsClosed[q] = target > P::load (boundary() + at);
                beginsClosed[q] = e > zero;
                crosses = crosses | (endsClosed[q] != beginsClosed[q]);
                // Open or closed throughout: the equation is linear.
                inverse[q] = P::select (endsClosed[q], P::load (closedInverse() + at), P::load (openInverse() + at));
                b[q] = P::select (endsClosed[q], D * K * e, zero) - target;
                move[q] = zero - b[q] * inverse[q];
                spring[q] = P::select (endsClosed[q], K * (e + half * move[q]), zero);
            }
            if (crosses.any())
                SNAREWRIGHT_UNROLL
            for (int q = 0; q < quadrants; ++q)
                solveTransitions (q * n + i, endsClosed[q], beginsClosed[q], b[q], inverse[q], move[q], spring[q]);
            SNAREWRIGHT_UNROLL
            for (int q = 0; q < quadrants; ++q)
            {
                const int at = q * n + i;
                const P next = spring[q] + P::load (loss() + at) * move[q];
                change = max (change, abs (next - P::load (s.force + at)));
                next.store (s.force + at);
                deviation[q] = next - P::load (s.restForce + at);
                // Relative to the deviation from rest, which is small against the strainer's pull.
                largest = max (largest, abs (deviation[q]));
            }
            fold (deviation);
            store (deviation, classForce(), i);
        }
        return { maxOf (change), maxOf (largest) };
    }

    /** Contacts that open or close: a·r² + b·r + c = 0, the larger root on the way in, the smaller on the way out. */
    SNAREWRIGHT_INLINE void solveTransitions (int at, typename P::Mask endsClosed, typename P::Mask beginsClosed, P b, P inverse,
                                              P& move, P& spring) const noexcept
    {
        const P zero = P::zero(), one = P::broadcast (Scalar (1)), half = P::broadcast (Scalar (0.5)),
                least = P::broadcast (leastMove());
        const P e = P::load (s.compressionBefore + at), K = P::load (s.stiffness + at), DK = P::load (s.metric + at) * K;
        const P square = e * e, sign = P::select (beginsClosed, zero - one, one);
        // b² - 4ac; half the inverse is 1/2a.
        const P fourAC = (DK + DK) * square * sign / inverse;
        const P root = max (b * b - fourAC, zero).sqrt();
        P met = half * inverse * (sign * root - b);
        met = P::select (beginsClosed, zero - max (zero - met, least), max (met, least));
        const P end = e + met;
        const P stored = P::select (endsClosed, end * end, zero - P::select (beginsClosed, square, zero));
        const auto crosses = endsClosed != beginsClosed;
        spring = P::select (crosses, half * K * stored / met, spring);
        move = P::select (crosses, met, move);
    }

    /** Least move of a contact that opens or closes, m; avoids a division by zero. */
    static constexpr Scalar leastMove() noexcept { return sizeof (Scalar) == 4 ? Scalar (1.0e-18) : Scalar (1.0e-100); }

    template <int quadrants>
    void finishAll() noexcept
    {
        for (int i = 0; i < n; i += lanes)
        {
            P response[quadrants];
            load (response, classResponse(), i);
            fold (response);
            SNAREWRIGHT_UNROLL
            for (int q = 0; q < quadrants; ++q)
            {
                const int at = q * n + i;
                const P next = P::load (predicted + at) - response[q];
                if (s.countsEnergy)
                    count (at, next);
                P::load (s.compression + at).store (s.compressionBefore + at);
                next.store (s.compression + at);
            }
        }
    }

    void count (int at, P next) noexcept
    {
        for (int i = 0; i < lanes; ++i)
        {
            const double move = static_cast<double> (next[i] - s.compressionBefore[at + i]);
            s.flows->contactLoss += 0.5 * static_cast<double> (loss()[at + i]) * move * move;
            if (s.compression[at + i] <= 0 && next[i] > 0)
                ++s.wireContacts;
        }
    }
};

} // namespace
} // namespace engine
