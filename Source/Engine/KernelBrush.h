#pragma once

#include "Pack.h"
#include "StickState.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace engine
{
namespace
{

/** The tips of a brush's groups of wires against the head, one sample at a time and all groups at once.

    Of each group the unknown is its tip's move over two samples. The tip meets the head by Hertz's law, whose force is the
   discrete gradient of its energy (see ContactLaw.h); its slip follows the tip's force: it holds, or slides against friction.
   What the groups' forces do to one another, which is little, is held fixed while Newton's method finds each group's own move,
   and then recomputed until nothing changes. The row sums of the mobility stand for its diagonal there: they bound the matrix
   from above, so that this converges. */
template <int lanes>
class BrushStep
{
public:
    using D = Pack<double, lanes>;

    void clear() noexcept { count = 0; }
    bool isEmpty() const noexcept { return count == 0; }

    /** Takes a group of wires into this sample, as its tip and slip now stand. `tipIndex` is the tip's in the mobility. */
    void add (StickState& stick, int tipIndex) noexcept
    {
        auto &tip = stick.at (StickContactKind::tip), &slip = stick.at (StickContactKind::slip);
        const auto g = static_cast<std::size_t> (count++);
        const auto slipIndex = static_cast<std::size_t> (tipIndex) + static_cast<std::size_t> (StickContactKind::slip);
        tips[g] = &tip;
        slips[g] = &slip;
        index[g] = static_cast<std::size_t> (tipIndex);
        from[g] = tip.compressionBefore;
        stiffness[g] = tip.stiffness;
        const double now = std::max (0.0, tip.compression);
        loss[g] = tip.lossRate * tip.stiffness * now * std::sqrt (now);
        across[g] = tip.mobility[slipIndex];
        perSlip[g] = 1.0 / slip.mobility[slipIndex];
        friction[g] = slip.friction;
        for (std::size_t h = 0; h <= g; ++h)
            mobility[g][h] = mobility[h][g] = tip.mobility[index[h]];
    }

    /** Call when all are added. */
    void prepare() noexcept
    {
        const auto n = static_cast<std::size_t> (count);
        const std::size_t end = (n + lanes - 1) / lanes * lanes;
        for (std::size_t g = n; g < end; ++g)
        {
            from[g] = stiffness[g] = loss[g] = across[g] = perSlip[g] = friction[g] = freeSlip[g] = free[g] = 0.0;
            for (std::size_t h = 0; h < n; ++h)
                mobility[h][g] = 0.0;
        }
        for (std::size_t g = 0; g < n; ++g)
            freeSlip[g] = slips[g]->free - slips[g]->compressionBefore;
        for (std::size_t g = 0; g < end; g += lanes)
        {
            D sum = D::zero();
            for (std::size_t h = 0; h < n; ++h)
                sum = sum + abs (D::load (&mobility[h][g]));
            sum.store (&bound[g]);
            const D in = max (D::load (&from[g]), D::zero());
            in.store (&inBefore[g]);
            in.sqrt().store (&rootBefore[g]);
        }
    }

    /** Finds all forces; `opening (contact, index)` is how far a contact opens by all present ones, m.
        @param enough  settled when a turn changes no force by more than this share of the largest */
    template <typename Opening>
    void solve (Opening opening, double enough, int mostTurns) noexcept
    {
        const auto n = static_cast<std::size_t> (count);
        const std::size_t end = (n + lanes - 1) / lanes * lanes;
        // What the groups' own forces do is taken out of what is free, and is where the moves begin.
        for (std::size_t g = 0; g < n; ++g)
        {
            move[g] = tips[g]->free - from[g] - opening (*tips[g], index[g]);
            force[g] = tips[g]->force;
            free[g] = move[g] + across[g] * slips[g]->force;
        }
        for (std::size_t g = n; g < end; ++g)
            move[g] = force[g] = 0.0;
        for (std::size_t g = 0; g < end; g += lanes)
            (D::load (&free[g]) + openedBy (g)).store (&free[g]);

        double largest = pushAll (end).largest;
        const auto isSettled = [&] (double change, double former)
        {
            // As near as rounding allows when it no longer comes nearer.
            return change <= enough * largest || (change >= former && change <= nearlySettled * largest);
        };
        double formerTurn = 0.0;
        for (int turn = 0; turn < mostTurns; ++turn)
        {
            const auto before = force;
            couple (end);
            double former = 0.0;
            for (int i = 0; i < mostTurns; ++i)
            {
                const bool isNewton = moveAll (end);
                const auto pushed = pushAll (end);
                largest = pushed.largest;
                if ((isNewton || i > enoughHalvings) && isSettled (pushed.change, i > 2 ? former : pushed.change + 1.0))
                    break;
                former = pushed.change;
            }
            double change = 0.0;
            for (std::size_t g = 0; g < n; ++g)
                change = std::max (change, std::abs (force[g] - before[g]));
            if (isSettled (change, turn > 2 ? formerTurn : change + 1.0))
                break;
            formerTurn = change;
        }
    }

    std::size_t groups() const noexcept { return static_cast<std::size_t> (count); }
    StickContact& tip (std::size_t g) const noexcept { return *tips[g]; }
    StickContact& slip (std::size_t g) const noexcept { return *slips[g]; }
    double tipForce (std::size_t g) const noexcept { return force[g]; }
    double slipForce (std::size_t g) const noexcept { return forceOfSlip[g]; }

private:
    static constexpr double nearlySettled = 1.0e-9;
    static constexpr int enoughHalvings = 60; ///< after which nothing is left between the bounds but rounding
    static constexpr double farthest = 1.0;   ///< m, further than a tip moves in two samples
    static constexpr auto room = static_cast<std::size_t> (wholePacks (maxSticks));
    using Groups = std::array<double, room>;

    int count = 0;
    std::array<StickContact*, room> tips, slips;
    std::array<std::size_t, room> index;
    alignas (64) Groups from, inBefore, rootBefore; ///< m, m, √m: compression a sample ago
    alignas (64) Groups stiffness, loss;            ///< N/m^1.5, N/m
    alignas (64) Groups bound, across, perSlip;     ///< m/N a step, the same, N/m
    alignas (64) Groups friction, freeSlip, free;   ///< coefficient, m, m
    alignas (64) Groups move, low, high, wish;  ///< m: the move, which is between these, and where it would go without own force
    alignas (64) Groups force, slope;           ///< N, N/m
    alignas (64) Groups forceOfSlip, slipShare; ///< N, and how it changes with the tip's
    alignas (64) std::array<Groups, room> mobility; ///< m/N a step, between tips

    /** How far the tips from g on open by all tips' forces. */
    D openedBy (std::size_t g) const noexcept
    {
        D sum = D::zero();
        for (std::size_t h = 0; h < static_cast<std::size_t> (count); ++h)
            sum = sum + D::load (&mobility[h][g]) * D::broadcast (force[h]);
        return sum;
    }

    /** Recomputes what the groups' forces do to one another. */
    void couple (std::size_t end) noexcept
    {
        for (std::size_t g = 0; g < end; g += lanes)
        {
            (D::load (&free[g]) - openedBy (g) + D::load (&bound[g]) * D::load (&force[g])).store (&wish[g]);
            D::broadcast (-farthest).store (&low[g]);
            D::broadcast (farthest).store (&high[g]);
        }
    }

    struct Pushed
    {
        double change, largest; ///< N
    };

    /** The forces at the present moves. Returns their largest change and the largest of them. */
    Pushed pushAll (std::size_t end) noexcept
    {
        const D zero = D::zero(), one = D::broadcast (1.0), tiny = D::broadcast (1.0e-100);
        D change = zero, largest = zero;
        for (std::size_t g = 0; g < end; g += lanes)
        {
            const D start = D::load (&from[g]), r = D::load (&move[g]), K = D::load (&stiffness[g]), lost = D::load (&loss[g]);
            const D in = D::load (&inBefore[g]), a = D::load (&rootBefore[g]);
            const D out = max (start + r, zero), b = out.sqrt(), ab = a * b;
            const D perMove = one / D::select (abs (r) > zero, r, one);
            // With a² and b² compressed at the ends, (b⁵ - a⁵)/(b² - a²) without the difference of like numbers.
            const D whole = D::broadcast (0.4) * K * (in * in + out * out + ab * (in + out + ab)) / max (a + b, tiny);
            const auto isOpenForAPart = (zero > start) != (zero > start + r);
            const D mean = whole * D::select (isOpenForAPart, (out - in) * perMove, one);
            const D growth = D::select (abs (r) > D::broadcast (1.0e-3) * in, max (zero, (K * out * b - mean) * perMove),
                                        D::broadcast (0.75) * K * a);
            const D f = mean + lost * r, pressed = max (f, zero);
            change = max (change, abs (f - D::load (&force[g])));
            f.store (&force[g]);
            (growth + lost).store (&slope[g]);
            largest = max (largest, abs (f));

            const D hold = D::load (&perSlip[g]), crossed = D::load (&across[g]), mu = D::load (&friction[g]);
            const D held = (D::load (&freeSlip[g]) - crossed * pressed) * hold, most = mu * pressed;
            const auto forwards = held > most, backwards = zero - most > held;
            D::select (forwards, most, D::select (backwards, zero - most, held)).store (&forceOfSlip[g]);
            D::select (forwards, mu, D::select (backwards, zero - mu, zero - crossed * hold)).store (&slipShare[g]);
        }
        return { maxOf (change), maxOf (largest) };
    }

    /** Newton's step of all moves, or half the way within the known bounds if it leaves these, as it may where a slip begins to
       slide. Returns whether all were Newton's. */
    bool moveAll (std::size_t end) noexcept
    {
        const D half = D::broadcast (0.5), one = D::broadcast (1.0);
        auto leaves = D::Mask::none();
        for (std::size_t g = 0; g < end; g += lanes)
        {
            const D crossed = D::load (&across[g]), r = D::load (&move[g]);
            const D own = D::load (&bound[g]), pushed = D::load (&force[g]);
            const D miss = r + own * pushed + crossed * D::load (&forceOfSlip[g]) - D::load (&wish[g]);
            const D steepness = one + (own + crossed * D::load (&slipShare[g])) * D::load (&slope[g]);
            const D next = r - miss / steepness;
            const auto isAbove = miss > D::zero();
            const D least = D::select (isAbove, D::load (&low[g]), r), most = D::select (isAbove, r, D::load (&high[g]));
            least.store (&low[g]);
            most.store (&high[g]);
            // From the bound on the other side it would only come back.
            const D other = D::select (isAbove, least, most), gap = D::select (isAbove, next - other, other - next);
            const auto isInside = gap > D::zero();
            leaves = leaves | (isInside != (one > D::zero()));
            D::select (isInside, next, half * (least + most)).store (&move[g]);
        }
        return ! leaves.any();
    }
};

} // namespace
} // namespace engine
