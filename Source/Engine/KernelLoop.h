#pragma once

#include "ContactLaw.h"
#include "KernelTension.h"
#include "KernelView.h"
#include "Pack.h"

#include <cmath>

/** The inner loop, included by one file per kind of processor. Internal linkage throughout: see Pack.h. */
namespace engine
{
namespace
{

/** Turns four quadrants of the wire bed into four parity classes, or back: the orthonormal Hadamard transform is its own inverse.
 */
template <typename P, typename Scalar>
SNAREWRIGHT_INLINE void fold (const Scalar* from, Scalar* to, int count, int lanes) noexcept
{
    const P half = P::all (Scalar (0.5));
    for (int i = 0; i < count; i += lanes)
    {
        const P a = P::load (from + i), b = P::load (from + count + i);
        const P c = P::load (from + 2 * count + i), d = P::load (from + 3 * count + i);
        const P sumOfFirst = half * (a + b), differenceOfFirst = half * (a - b);
        const P sumOfLast = half * (c + d), differenceOfLast = half * (c - d);
        (sumOfFirst + sumOfLast).store (to + i);
        (differenceOfFirst + differenceOfLast).store (to + count + i);
        (sumOfFirst - sumOfLast).store (to + 2 * count + i);
        (differenceOfFirst - differenceOfLast).store (to + 3 * count + i);
    }
}

template <typename Scalar, int lanes>
class Loop
{
public:
    using P = Pack<Scalar, lanes>;

    explicit Loop (KernelView<Scalar>& stateToUse) noexcept : s (stateToUse), contacts (s.classes * s.combinations) {}

    void run (Scalar* const* outputs, int frames) noexcept
    {
        predictAll();
        if (contacts == 0 && ! s.countsEnergy && ! s.tension.isActive && ! isStruck())
        {
            for (int frame = 0; frame < frames; ++frame)
            {
                advance<false> (outputs, frame);
                tellForces (frame);
            }
            return;
        }
        for (int frame = 0; frame < frames; ++frame)
        {
            push();
            if (contacts > 0)
                finishWires();
            tellForces (frame);
            advance<true> (outputs, frame);
            finishStrikers();
        }
    }

private:
    KernelView<Scalar>& s;
    const int contacts;

    // Scratch arrays, one entry a contact.
    Scalar* freeCompression() const noexcept { return s.scratch; }
    Scalar* wish() const noexcept { return s.scratch + contacts; }
    Scalar* loss() const noexcept { return s.scratch + 2 * contacts; }
    Scalar* openInverse() const noexcept { return s.scratch + 3 * contacts; }
    Scalar* closedInverse() const noexcept { return s.scratch + 4 * contacts; }
    Scalar* response() const noexcept { return s.scratch + 5 * contacts; }
    Scalar* folded() const noexcept { return s.scratch + 6 * contacts; }
    Scalar* foldedResponse() const noexcept { return s.scratch + 7 * contacts; }

    /** Everything that pushes the modes in this sample. */
    void push() noexcept
    {
        TensionStep<Scalar, lanes> tension (s);
        if (s.tension.isActive)
            tension.begin();
        pushByContacts();
        if (s.tension.isActive && ! tension.finish())
        {
            pushByContacts();
            tension.finish();
        }
    }

    void pushByContacts() noexcept
    {
        const bool wires = contacts > 0;
        if (wires)
            gatherWires();
        const bool struck = predictStrikers();
        if (wires)
            prepareWires();
        settle (struck);
        if (wires)
            scatterWires();
        scatterStrikers();
    }

    void predictAll() noexcept
    {
        for (int k = 0; k < s.modes; k += lanes)
        {
            const P q = P::load (s.position + k);
            (q + P::load (s.keep + k) * P::load (s.step + k) - P::load (s.spring + k) * q).store (s.trial + k);
        }
    }

    bool isStruck() const noexcept
    {
        for (int j = 0; j < maxStrikers; ++j)
            if (s.strikers[j].active)
                return true;
        return false;
    }

    void unfold (const Scalar* classes, Scalar* quadrants) const noexcept
    {
        if (s.classes == 4)
            fold<P> (classes, quadrants, s.combinations, lanes);
        else
            for (int i = 0; i < contacts; ++i)
                quadrants[i] = classes[i];
    }

    /** Sums of products of eight rows with the trial positions; eight, so that the sums stay in registers. */
    SNAREWRIGHT_INLINE void gatherRows (const Scalar* shapes, const Scalar* values, int modes, Scalar* to) const noexcept
    {
        P sums[8];
        SNAREWRIGHT_UNROLL
        for (int r = 0; r < 8; ++r)
            sums[r] = P::zero();
        for (int k = 0; k < modes; k += lanes)
        {
            const P value = P::load (values + k);
            SNAREWRIGHT_UNROLL
            for (int r = 0; r < 8; ++r)
                sums[r] = sums[r] + value * P::load (shapes + r * modes + k);
        }
        storeSums (sums, to);
    }

    void gatherWires() noexcept
    {
        Scalar* to = folded();
        for (int c = 0; c < s.classes; ++c)
        {
            const auto& group = s.coupling[c];
            for (int i = 0; i < s.combinations; i += 8)
                gatherRows (group.shapes + i * group.modes, s.trial + group.firstMode, group.modes, to + c * s.combinations + i);
        }
        unfold (to, freeCompression());
    }

    /** What each contact would do if all forces stayed at rest, and the constants of its equation for this sample. */
    void prepareWires() noexcept
    {
        const P zero = P::zero(), one = P::all (Scalar (1)), half = P::all (Scalar (0.5));
        const P resistance = P::all (s.contactResistance);
        for (int i = 0; i < contacts; i += lanes)
        {
            (P::load (freeCompression() + i) + P::load (s.restCompression + i)).store (freeCompression() + i);
            const P now = P::load (s.compression + i), metric = P::load (s.metric + i);
            const P losses = P::load (s.lossRate + i) * larger (now, zero) + P::select (now > zero, resistance, zero);
            const P base = one + metric * losses;
            losses.store (loss() + i);
            // One division for two inverses.
            const P closedBase = base + half * metric * P::load (s.stiffness + i);
            const P both = one / (base * closedBase);
            (both * closedBase).store (openInverse() + i);
            (both * base).store (closedInverse() + i);
            // Forces that change evenly are met at once; a wrong guess only costs another sweep.
            const P last = P::load (s.force + i);
            const P line = last + last - P::load (s.forceBefore + i);
            last.store (s.forceBefore + i);
            larger (line, zero).store (s.force + i);
        }
    }

    /** response = mobility × (force - rest force), through the parity classes. */
    void respond() noexcept
    {
        for (int i = 0; i < contacts; i += lanes)
            (P::load (s.force + i) - P::load (s.restForce + i)).store (response() + i);
        Scalar* deviation = response();
        unfold (deviation, folded());
        const int n = s.combinations;
        for (int c = 0; c < s.classes; ++c)
            multiplyRows (s.coupling[c].mobility, n, folded() + c * n, foldedResponse() + c * n, n, Scalar (1));
        unfold (foldedResponse(), response());
    }

    /** out[k] = factor · Σ_i in[i]·rows[i][k] for a whole number of packs of columns. */
    SNAREWRIGHT_INLINE void multiplyRows (const Scalar* rows, int columns, const Scalar* in, Scalar* out, int count,
                                          Scalar factor) const noexcept
    {
        int k = 0;
        for (; columns - k >= 8 * lanes; k += 8 * lanes)
            multiplyTile<8> (rows, columns, in, out, count, k, factor);
        switch ((columns - k) / lanes)
        {
        case 7:
            multiplyTile<7> (rows, columns, in, out, count, k, factor);
            break;
        case 6:
            multiplyTile<6> (rows, columns, in, out, count, k, factor);
            break;
        case 5:
            multiplyTile<5> (rows, columns, in, out, count, k, factor);
            break;
        case 4:
            multiplyTile<4> (rows, columns, in, out, count, k, factor);
            break;
        case 3:
            multiplyTile<3> (rows, columns, in, out, count, k, factor);
            break;
        case 2:
            multiplyTile<2> (rows, columns, in, out, count, k, factor);
            break;
        case 1:
            multiplyTile<1> (rows, columns, in, out, count, k, factor);
            break;
        default:
            break;
        }
    }

    /** A few packs of columns at once, each with sums enough that no addition waits for the one before it. `count` is even. */
    template <int packs>
    SNAREWRIGHT_INLINE void multiplyTile (const Scalar* rows, int columns, const Scalar* in, Scalar* out, int count, int k,
                                          Scalar factor) const noexcept
    {
        constexpr int chains = packs > 4 ? 1 : 2;
        P sums[chains][packs];
        SNAREWRIGHT_UNROLL
        for (int c = 0; c < chains; ++c)
            SNAREWRIGHT_UNROLL
        for (int p = 0; p < packs; ++p)
            sums[c][p] = P::zero();
        for (int i = 0; i < count; i += chains)
            SNAREWRIGHT_UNROLL
        for (int c = 0; c < chains; ++c)
        {
            const P value = P::all (in[i + c]);
            SNAREWRIGHT_UNROLL
            for (int p = 0; p < packs; ++p)
                sums[c][p] = sums[c][p] + value * P::load (rows + (i + c) * columns + k + p * lanes);
        }
        SNAREWRIGHT_UNROLL
        for (int p = 0; p < packs; ++p)
        {
            const P sum = chains == 2 ? sums[0][p] + sums[chains - 1][p] : sums[0][p];
            (P::all (factor) * sum).store (out + k + p * lanes);
        }
    }

    struct SweepResult
    {
        double change, largest; ///< N
    };

    /** One sweep over all wire contacts at once: each solves its own equation in closed form against a mobility that bounds the
       coupling from above, which makes every sweep a step of a convergent proximal method. Returns the largest change of force
       and the largest force.

        The equation is r + D·f(r) = target with r the move over two samples, f the discrete gradient of K/2·max(η, 0)² plus
       loss·r. */
    SweepResult sweepWires() noexcept
    {
        const P zero = P::zero(), one = P::all (Scalar (1)), half = P::all (Scalar (0.5));
        P change = zero, largest = zero;
        for (int i = 0; i < contacts; i += lanes)
        {
            const P D = P::load (s.metric + i), K = P::load (s.stiffness + i), losses = P::load (loss() + i);
            const P e = P::load (s.compressionBefore + i), former = P::load (s.force + i);
            const P target = P::load (freeCompression() + i) - e - P::load (response() + i) + D * former;
            const P DK = D * K, deep = larger (e, zero), base = one + D * losses;

            // Compressed at the end? The left side of the equation grows with the move, so its value at the border tells.
            const auto endsIn = target > half * DK * deep - e * base;
            const auto beginsIn = e > zero;
            const P inverse = P::select (endsIn, P::load (closedInverse() + i), P::load (openInverse() + i));
            const P b = P::select (endsIn, DK * e - target, zero - target);

            // Open all the time, or compressed all the time: the equation is linear.
            P move = zero - b * inverse;
            P spring = P::select (endsIn, K * (e + half * move), zero);
            const auto crosses = endsIn != beginsIn;
            if (crosses.any())
            {
                // a·r² + b·r + c = 0: the larger root on the way in, the smaller on the way out.
                const P sign = P::select (beginsIn, zero - one, one);
                const P c = half * DK * e * e * sign;
                const P a = P::select (endsIn, base + half * DK, base);
                const P root = larger (b * b - P::all (Scalar (4)) * a * c, zero).root();
                P met = half * inverse * (sign * root - b);
                const P least = P::all (leastMove());
                met = P::select (beginsIn, zero - larger (zero - met, least), larger (met, least));
                const P end = e + met;
                const P stored = P::select (endsIn, end * end, zero - deep * deep);
                spring = P::select (crosses, half * K * stored / met, spring);
                move = P::select (crosses, met, move);
            }
            const P next = spring + losses * move;
            change = larger (change, magnitude (next - former));
            largest = larger (largest, magnitude (next));
            next.store (s.force + i);
        }
        return { static_cast<double> (largestOf (change)), static_cast<double> (largestOf (largest)) };
    }

    /** A contact that opens or closes moves; this much at least, m, so that nothing is divided by zero. */
    static constexpr Scalar leastMove() noexcept { return sizeof (Scalar) == 4 ? Scalar (1.0e-18) : Scalar (1.0e-100); }

    /** Strikers whose tip would be in contact, or was. */
    bool predictStrikers() noexcept
    {
        bool any = false;
        for (int j = 0; j < maxStrikers; ++j)
        {
            auto& striker = s.strikers[j];
            if (! striker.active)
                continue;
            striker.free = striker.freeCompression (dot (s.strikerShape[j]));
            any = any || striker.free > 0.0 || striker.compressionBefore > 0.0 || striker.compression > 0.0;
        }
        return any;
    }

    double dot (const Scalar* shape) const noexcept
    {
        P sum = P::zero();
        for (int k = 0; k < s.modes; k += lanes)
            sum = sum + P::load (shape + k) * P::load (s.trial + k);
        return static_cast<double> (sumOf (sum));
    }

    double moveFromWires (int j) const noexcept
    {
        P sum = P::zero();
        for (int i = 0; i < contacts; i += lanes)
            sum = sum + P::load (s.strikerToWire[j] + i) * (P::load (s.force + i) - P::load (s.restForce + i));
        return static_cast<double> (sumOf (sum));
    }

    double solveStrikers() noexcept
    {
        double largest = 0.0;
        for (int j = 0; j < maxStrikers; ++j)
        {
            auto& striker = s.strikers[j];
            if (! striker.active)
                continue;
            double elsewhere = contacts > 0 ? moveFromWires (j) : 0.0;
            for (int other = 0; other < maxStrikers; ++other)
                if (other != j && s.strikers[other].active)
                    elsewhere += striker.crossMobility[other] * s.strikers[other].force;
            const double loss = striker.lossRate * springForce (striker.stiffness, striker.exponent, striker.compression);
            const auto solved = solveContact (striker.compressionBefore, striker.free - striker.compressionBefore - elsewhere,
                                              striker.mobility, striker.stiffness, striker.exponent, loss);
            largest = std::fmax (largest, std::abs (solved.force - striker.force));
            striker.force = solved.force;
        }
        return largest;
    }

    void addStrikerResponse() noexcept
    {
        for (int j = 0; j < maxStrikers; ++j)
        {
            if (! s.strikers[j].active || s.strikers[j].force == 0.0)
                continue;
            const P force = P::all (static_cast<Scalar> (s.strikers[j].force));
            for (int i = 0; i < contacts; i += lanes)
                (P::load (response() + i) + P::load (s.strikerToWire[j] + i) * force).store (response() + i);
        }
    }

    /** Sweeps over strikers and wires until no force changes any more. */
    void settle (bool struck) noexcept
    {
        if (! struck)
            for (int j = 0; j < maxStrikers; ++j)
                s.strikers[j].force = 0.0;
        if (contacts == 0 && ! struck)
            return;

        int strikersTouching = 0;
        for (int j = 0; j < maxStrikers; ++j)
            strikersTouching += s.strikers[j].active ? 1 : 0;

        for (int sweep = 0; sweep < s.maxSweeps; ++sweep)
        {
            double change = struck ? solveStrikers() : 0.0;
            double allowed = static_cast<double> (s.tolerance);
            if (contacts > 0)
            {
                respond();
                if (struck)
                    addStrikerResponse();
                const auto swept = sweepWires();
                change = std::fmax (change, swept.change);
                allowed += static_cast<double> (s.relativeTolerance) * swept.largest;
                ++s.sweeps;
            }
            else if (strikersTouching == 1)
                break;
            if (change <= allowed)
                break;
        }
        if (contacts > 0)
        {
            respond();
            if (struck)
                addStrikerResponse();
        }
    }

    void finishWires() noexcept
    {
        if (s.countsEnergy)
            countWires();
        for (int i = 0; i < contacts; i += lanes)
        {
            P::load (s.compression + i).store (s.compressionBefore + i);
            (P::load (freeCompression() + i) - P::load (response() + i)).store (s.compression + i);
        }
    }

    /** What the heads are pushed with, for those who listen to it. */
    void tellForces (int frame) noexcept
    {
        Scalar* to = s.toldForce + frame;
        for (int j = 0; j < maxStrikers; ++j, to += s.toldStride)
            *to = static_cast<Scalar> (s.strikers[j].force);
        for (int p = 0; p < s.forcePointCount; ++p, to += s.toldStride)
        {
            Scalar sum = 0;
            for (int i = s.forcePoints[p].first, end = i + s.forcePoints[p].count; i < end; ++i)
                sum += s.force[i] - s.restForce[i];
            *to = sum;
        }
    }

    /** The contacts' forces handed to the modes. */
    void scatterWires() noexcept
    {
        for (int c = 0; c < s.classes; ++c)
        {
            const auto& group = s.coupling[c];
            multiplyRows (group.shapes, group.modes, folded() + c * s.combinations, s.push + group.firstMode, s.combinations,
                          Scalar (-1));
        }
    }

    void countWires() noexcept
    {
        for (int i = 0; i < contacts; ++i)
        {
            const Scalar next = freeCompression()[i] - response()[i];
            const double move = static_cast<double> (next - s.compressionBefore[i]);
            s.flows->contactLoss += 0.5 * static_cast<double> (loss()[i]) * move * move;
            if (s.compression[i] <= 0 && next > 0)
                ++s.wireContacts;
        }
    }

    void scatterStrikers() noexcept
    {
        for (int j = 0; j < maxStrikers; ++j)
        {
            if (! s.strikers[j].active || s.strikers[j].force == 0.0)
                continue;
            const P force = P::all (static_cast<Scalar> (-s.strikers[j].force));
            const Scalar* shape = s.strikerShape[j];
            for (int k = 0; k < s.modes; k += lanes)
                (P::load (s.push + k) + force * P::load (shape + k)).store (s.push + k);
        }
    }

    template <bool isPushed>
    void advance (Scalar* const* outputs, int frame) noexcept
    {
        if (s.countsEnergy)
            countModalLoss();
        switch (s.microphones)
        {
        case 0:
            advanceHearing<0, isPushed> (outputs, frame);
            break;
        case 1:
            advanceHearing<1, isPushed> (outputs, frame);
            break;
        case 2:
            advanceHearing<2, isPushed> (outputs, frame);
            break;
        default:
            advanceHearing<3, isPushed> (outputs, frame);
            break;
        }
    }

    /** Moves every mode on, listens to it and, where contacts may push it, predicts the next sample, in one pass. */
    template <int microphones, bool isPushed>
    void advanceHearing (Scalar* const* outputs, int frame) noexcept
    {
        // Two sums a microphone, so that neither waits for the other.
        P heard[microphones + 1], heardFromVelocity[microphones + 1];
        SNAREWRIGHT_UNROLL
        for (int m = 0; m < microphones; ++m)
            heard[m] = heardFromVelocity[m] = P::zero();

        // The arrays never overlap, which a compiler cannot know of pointers that live in a struct.
        const Scalar* const keeps = s.keep;
        const Scalar* const springs = s.spring;
        [[maybe_unused]] const Scalar* const drives = s.drive;
        Scalar* const positions = s.position;
        Scalar* const steps = s.step;
        [[maybe_unused]] Scalar* const trials = s.trial;
        [[maybe_unused]] Scalar* const pushes = s.push;
        const Scalar* ofAcceleration[microphones + 1];
        const Scalar* ofVelocity[microphones + 1];
        for (int m = 0; m < microphones; ++m)
        {
            ofAcceleration[m] = s.pressureOfAcceleration[m];
            ofVelocity[m] = s.pressureOfVelocity[m];
        }

        const int modes = s.modes;
        for (int k = 0; k < modes; k += lanes)
        {
            const P q = P::load (positions + k), before = P::load (steps + k);
            const P keep = P::load (keeps + k), spring = P::load (springs + k);
            P step = keep * before - spring * q;
            if constexpr (isPushed)
                step = step + P::load (drives + k) * P::load (pushes + k);
            const P position = q + step;
            const P acceleration = step - before, velocity = step + before;
            SNAREWRIGHT_UNROLL
            for (int m = 0; m < microphones; ++m)
            {
                heard[m] = heard[m] + acceleration * P::load (ofAcceleration[m] + k);
                heardFromVelocity[m] = heardFromVelocity[m] + velocity * P::load (ofVelocity[m] + k);
            }
            step.store (steps + k);
            position.store (positions + k);
            if constexpr (isPushed)
            {
                (position + keep * step - spring * position).store (trials + k);
                P::zero().store (pushes + k);
            }
        }
        for (int m = 0; m < microphones; ++m)
            outputs[m][frame] += sumOf (heard[m] + heardFromVelocity[m]);
    }

    void countModalLoss() noexcept
    {
        for (int k = 0; k < s.modes; ++k)
        {
            const double step =
                static_cast<double> (s.keep[k] * s.step[k] - s.spring[k] * s.position[k] + s.drive[k] * s.push[k]);
            const double twoSteps = step + static_cast<double> (s.step[k]);
            s.flows->modalLoss += static_cast<double> (s.lossOfStep[k]) * twoSteps * twoSteps;
        }
    }

    void finishStrikers() noexcept
    {
        for (int j = 0; j < maxStrikers; ++j)
        {
            auto& striker = s.strikers[j];
            if (! striker.active)
                continue;
            const double step = striker.nextStep (striker.force);
            if (s.countsEnergy)
            {
                const double twoSteps = step + striker.step;
                s.flows->work -= 0.5 * striker.handNow() * twoSteps;
                s.flows->contactLoss += 0.5 * striker.grip / striker.drive * twoSteps * twoSteps;
            }
            striker.height += step;
            striker.step = step;
            double elsewhere = striker.mobility * striker.force + (contacts > 0 ? moveFromWires (j) : 0.0);
            for (int other = 0; other < maxStrikers; ++other)
                if (other != j && s.strikers[other].active)
                    elsewhere += striker.crossMobility[other] * s.strikers[other].force;
            const double next = striker.free - elsewhere, dent = striker.nextDent (striker.force);
            if (s.countsEnergy)
            {
                const double move = next - striker.compressionBefore;
                const double loss = striker.lossRate * springForce (striker.stiffness, striker.exponent, striker.compression);
                const double dented = dent - striker.dentBefore;
                s.flows->contactLoss += 0.5 * (loss * move * move + striker.dentResistance() * dented * dented);
            }
            striker.compressionBefore = striker.compression;
            striker.compression = next;
            striker.dentBefore = striker.dent;
            striker.dent = dent;
            striker.peakForce = std::fmax (striker.peakForce, striker.force);
            striker.contactSamples += striker.force > 0.0 ? 1 : 0;
            ++striker.age;
        }
    }
};

} // namespace
} // namespace engine
