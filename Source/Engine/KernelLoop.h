#pragma once

#include "ContactLaw.h"
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
template <typename Scalar>
SNAREWRIGHT_INLINE void fold (const Scalar* from, Scalar* to, int count) noexcept
{
    const Scalar half = Scalar (0.5);
    const Scalar *a = from, *b = from + count, *c = from + 2 * count, *d = from + 3 * count;
    for (int i = 0; i < count; ++i)
    {
        const Scalar sumOfFirst = a[i] + b[i], differenceOfFirst = a[i] - b[i];
        const Scalar sumOfLast = c[i] + d[i], differenceOfLast = c[i] - d[i];
        to[i] = half * (sumOfFirst + sumOfLast);
        to[count + i] = half * (differenceOfFirst + differenceOfLast);
        to[2 * count + i] = half * (sumOfFirst - sumOfLast);
        to[3 * count + i] = half * (differenceOfFirst - differenceOfLast);
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
        for (int frame = 0; frame < frames; ++frame)
        {
            const bool wires = contacts > 0;
            if (wires)
                gatherWires();
            const bool struck = predictStrikers();
            if (wires)
                prepareWires();
            settle (struck);
            if (wires)
                finishWires();
            scatterStrikers();
            advance (outputs, frame);
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

    void predictAll() noexcept
    {
        for (int k = 0; k < s.modes; k += lanes)
        {
            const P q = P::load (s.position + k);
            (q + P::load (s.keep + k) * P::load (s.step + k) - P::load (s.spring + k) * q).store (s.trial + k);
        }
    }

    void unfold (const Scalar* classes, Scalar* quadrants) const noexcept
    {
        if (s.classes == 4)
            fold (classes, quadrants, s.combinations);
        else
            for (int i = 0; i < contacts; ++i)
                quadrants[i] = classes[i];
    }

    /** Sums of products of `count` rows with the trial positions, for eight rows at a time so that the sums stay in registers. */
    template <int rows>
    SNAREWRIGHT_INLINE void gatherRows (const Scalar* shapes, const Scalar* values, int modes, Scalar* to) const noexcept
    {
        P sums[rows];
        for (int r = 0; r < rows; ++r)
            sums[r] = P::all (Scalar (0));
        for (int k = 0; k < modes; k += lanes)
        {
            const P value = P::load (values + k);
            for (int r = 0; r < rows; ++r)
                sums[r] = sums[r] + value * P::load (shapes + r * modes + k);
        }
        for (int r = 0; r < rows; ++r)
            to[r] = sums[r].sum();
    }

    void gatherWires() noexcept
    {
        Scalar* to = folded();
        for (int c = 0; c < s.classes; ++c)
        {
            const auto& group = s.coupling[c];
            for (int i = 0; i < s.combinations; i += 8)
                gatherRows<8> (group.shapes + i * group.modes, s.trial + group.firstMode, group.modes,
                               to + c * s.combinations + i);
        }
        unfold (to, freeCompression());
    }

    /** What each contact would do if all forces stayed at rest, and the constants of its equation for this sample. */
    void prepareWires() noexcept
    {
        Scalar* __restrict free = freeCompression();
        Scalar* __restrict losses = loss();
        Scalar* __restrict open = openInverse();
        Scalar* __restrict closed = closedInverse();
        Scalar* __restrict guess = s.force;
        Scalar* __restrict older = s.forceBefore;
        for (int i = 0; i < contacts; ++i)
        {
            free[i] += s.restCompression[i];
            const Scalar now = s.compression[i];
            losses[i] = s.lossRate[i] * (now > Scalar (0) ? now : Scalar (0));
            const Scalar base = Scalar (1) + s.metric[i] * losses[i];
            open[i] = Scalar (1) / base;
            closed[i] = Scalar (1) / (base + Scalar (0.5) * s.metric[i] * s.stiffness[i]);
            // Forces that change evenly are met at once; a wrong guess only costs another sweep.
            const Scalar last = guess[i];
            const Scalar line = last + last - older[i];
            older[i] = last;
            guess[i] = line > Scalar (0) ? line : Scalar (0);
        }
    }

    /** response = mobility × (force - rest force), through the parity classes. */
    void respond() noexcept
    {
        Scalar* __restrict deviation = response();
        for (int i = 0; i < contacts; ++i)
            deviation[i] = s.force[i] - s.restForce[i];
        unfold (deviation, folded());
        const int n = s.combinations;
        for (int c = 0; c < s.classes; ++c)
        {
            const Scalar* mobility = s.coupling[c].mobility;
            const Scalar* in = folded() + c * n;
            Scalar* out = foldedResponse() + c * n;
            for (int block = 0; block < n; block += 8)
                multiplyBlock (mobility + block, in, out + block, n);
        }
        unfold (foldedResponse(), response());
    }

    /** Eight rows (padded to whole packs) of a symmetric matrix times a vector. */
    SNAREWRIGHT_INLINE void multiplyBlock (const Scalar* matrix, const Scalar* in, Scalar* out, int n) const noexcept
    {
        constexpr int packs = lanes >= 8 ? 1 : 8 / lanes;
        using Q = Pack<Scalar, (lanes >= 8 ? 8 : lanes)>;
        Q even[packs], odd[packs];
        for (int p = 0; p < packs; ++p)
            even[p] = odd[p] = Q::all (Scalar (0));
        for (int j = 0; j < n; j += 2)
        {
            const Q a = Q::all (in[j]), b = Q::all (in[j + 1]);
            for (int p = 0; p < packs; ++p)
            {
                even[p] = even[p] + a * Q::load (matrix + j * n + p * (8 / packs));
                odd[p] = odd[p] + b * Q::load (matrix + (j + 1) * n + p * (8 / packs));
            }
        }
        for (int p = 0; p < packs; ++p)
            (even[p] + odd[p]).store (out + p * (8 / packs));
    }

    /** One sweep over all wire contacts at once: each solves its own equation in closed form against a mobility that bounds the
       coupling from above, which makes every sweep a step of a convergent proximal method. Returns the largest change of force.
     */
    Scalar sweepWires() noexcept
    {
        const Scalar* __restrict before = s.compressionBefore;
        const Scalar* __restrict free = freeCompression();
        const Scalar* __restrict answer = response();
        const Scalar* __restrict losses = loss();
        const Scalar* __restrict open = openInverse();
        const Scalar* __restrict closed = closedInverse();
        const Scalar* __restrict metric = s.metric;
        const Scalar* __restrict stiffness = s.stiffness;
        Scalar* __restrict force = s.force;
        const Scalar zero = 0, one = 1, half = Scalar (0.5), two = 2;
        const Scalar tiny = sizeof (Scalar) == 4 ? Scalar (1.0e-30) : Scalar (1.0e-290);

        Scalar largest = 0;
        for (int i = 0; i < contacts; ++i)
        {
            const Scalar D = metric[i], K = stiffness[i], e = before[i];
            const Scalar target = free[i] - e - answer[i] + D * force[i];
            const Scalar DK = D * K;
            const Scalar deep = e > zero ? e : zero;

            // Compressed at the end of the step? The left side of the equation grows with the move, so its value at the border
            // tells.
            const Scalar base = one + D * losses[i];
            const bool endsIn = target > half * DK * deep - e * base;
            const bool beginsIn = e > zero;

            // a·r² + b·r + c = 0 covers all four ways from open or closed to open or closed.
            const Scalar inverse = endsIn ? closed[i] : open[i];
            const Scalar b = endsIn ? DK * e - target : -target;
            const Scalar c = half * DK * (endsIn ? e * e - deep * deep : -deep * deep);
            const Scalar a = endsIn ? base + half * DK : base;
            Scalar inside = b * b - two * two * a * c;
            inside = inside > zero ? inside : zero;
            const Scalar root = std::sqrt (inside);
            const Scalar leaving = -(b + root);
            const Scalar entering = root - b;
            const Scalar straight = -two * b;
            const Scalar move = half * inverse * (beginsIn == endsIn ? straight : (beginsIn ? leaving : entering));

            const Scalar endCompression = e + move;
            const Scalar safeMove = move * move > tiny ? move : (move < zero ? -Scalar (1.0e-15) : Scalar (1.0e-15));
            const Scalar through = half * K / safeMove;
            const Scalar whileIn = K * (e + half * move);
            const Scalar onEntry = through * endCompression * endCompression;
            const Scalar onLeaving = -through * deep * deep;
            const Scalar spring = endsIn ? (beginsIn ? whileIn : onEntry) : (beginsIn ? onLeaving : zero);
            const Scalar next = spring + losses[i] * move;

            const Scalar change = next > force[i] ? next - force[i] : force[i] - next;
            largest = change > largest ? change : largest;
            force[i] = next;
        }
        return largest;
    }

    /** Strikers whose tip would be in contact, or was. */
    bool predictStrikers() noexcept
    {
        bool any = false;
        for (int j = 0; j < maxStrikers; ++j)
        {
            auto& striker = s.strikers[j];
            if (! striker.active)
                continue;
            const double hand = striker.age < striker.liftAfter ? striker.hand : -striker.lift;
            striker.free = dot (s.strikerShape[j]) - (striker.height + striker.step - striker.drive * hand);
            any = any || striker.free > 0.0 || striker.compressionBefore > 0.0 || striker.compression > 0.0;
        }
        return any;
    }

    double dot (const Scalar* shape) const noexcept
    {
        P sum = P::all (Scalar (0));
        for (int k = 0; k < s.modes; k += lanes)
            sum = sum + P::load (shape + k) * P::load (s.trial + k);
        return static_cast<double> (sum.sum());
    }

    double moveFromWires (int j) const noexcept
    {
        const Scalar* __restrict cross = s.strikerToWire[j];
        Scalar sum = 0;
        for (int i = 0; i < contacts; ++i)
            sum += cross[i] * (s.force[i] - s.restForce[i]);
        return static_cast<double> (sum);
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
        Scalar* __restrict answer = response();
        for (int j = 0; j < maxStrikers; ++j)
        {
            if (! s.strikers[j].active || s.strikers[j].force == 0.0)
                continue;
            const Scalar* __restrict cross = s.strikerToWire[j];
            const Scalar force = static_cast<Scalar> (s.strikers[j].force);
            for (int i = 0; i < contacts; ++i)
                answer[i] += cross[i] * force;
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
            if (contacts > 0)
            {
                respond();
                if (struck)
                    addStrikerResponse();
                change = std::fmax (change, static_cast<double> (sweepWires()));
                ++s.sweeps;
            }
            else if (strikersTouching == 1)
                break;
            if (change <= static_cast<double> (s.tolerance))
                break;
        }
        if (contacts > 0)
        {
            respond();
            if (struck)
                addStrikerResponse();
        }
    }

    /** New compressions, and the contacts' forces handed to the modes. */
    void finishWires() noexcept
    {
        const Scalar* __restrict free = freeCompression();
        const Scalar* __restrict answer = response();
        Scalar* __restrict now = s.compression;
        Scalar* __restrict before = s.compressionBefore;
        if (s.countsEnergy)
        {
            for (int i = 0; i < contacts; ++i)
            {
                const double move = static_cast<double> (free[i] - answer[i] - before[i]);
                s.flows->contactLoss += 0.5 * static_cast<double> (loss()[i]) * move * move;
                if (now[i] <= 0 && free[i] - answer[i] > 0)
                    ++s.wireContacts;
            }
        }
        for (int i = 0; i < contacts; ++i)
        {
            const Scalar next = free[i] - answer[i];
            before[i] = now[i];
            now[i] = next;
        }

        for (int c = 0; c < s.classes; ++c)
        {
            const auto& group = s.coupling[c];
            const Scalar* in = folded() + c * s.combinations;
            int k = 0;
            for (; k + 4 * lanes <= group.modes; k += 4 * lanes)
                scatterTile<4> (group, in, k);
            for (; k < group.modes; k += lanes)
                scatterTile<1> (group, in, k);
        }
    }

    template <int packs>
    SNAREWRIGHT_INLINE void scatterTile (const CouplingClass<Scalar>& group, const Scalar* in, int k) const noexcept
    {
        P sums[packs];
        for (int p = 0; p < packs; ++p)
            sums[p] = P::all (Scalar (0));
        for (int i = 0; i < s.combinations; ++i)
        {
            const P value = P::all (in[i]);
            for (int p = 0; p < packs; ++p)
                sums[p] = sums[p] + value * P::load (group.shapes + i * group.modes + k + p * lanes);
        }
        for (int p = 0; p < packs; ++p)
            (P::all (Scalar (0)) - sums[p]).store (s.push + group.firstMode + k + p * lanes);
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

    /** Moves every mode on, listens to it, and predicts the next sample, in one pass. */
    void advance (Scalar* const* outputs, int frame) noexcept
    {
        P heard[maxMicrophones];
        for (int m = 0; m < maxMicrophones; ++m)
            heard[m] = P::all (Scalar (0));
        const P nothing = P::all (Scalar (0));
        double modalLoss = 0.0;

        for (int k = 0; k < s.modes; k += lanes)
        {
            const P q = P::load (s.position + k), before = P::load (s.step + k);
            const P keep = P::load (s.keep + k), spring = P::load (s.spring + k);
            const P step = keep * before - spring * q + P::load (s.drive + k) * P::load (s.push + k);
            const P position = q + step;
            const P acceleration = step - before, velocity = step + before;
            for (int m = 0; m < s.microphones; ++m)
                heard[m] = heard[m] + acceleration * P::load (s.pressureOfAcceleration[m] + k) +
                           velocity * P::load (s.pressureOfVelocity[m] + k);
            if (s.countsEnergy)
            {
                (velocity * velocity * P::load (s.lossOfStep + k)).store (s.trial + k);
                for (int lane = 0; lane < lanes; ++lane)
                    modalLoss += static_cast<double> (s.trial[k + lane]);
            }
            step.store (s.step + k);
            position.store (s.position + k);
            (position + keep * step - spring * position).store (s.trial + k);
            nothing.store (s.push + k);
        }
        for (int m = 0; m < s.microphones; ++m)
            outputs[m][frame] += heard[m].sum();
        if (s.countsEnergy)
            s.flows->modalLoss += modalLoss;
    }

    void finishStrikers() noexcept
    {
        for (int j = 0; j < maxStrikers; ++j)
        {
            auto& striker = s.strikers[j];
            if (! striker.active)
                continue;
            const double hand = striker.age < striker.liftAfter ? striker.hand : -striker.lift;
            const double step = striker.step + striker.drive * (striker.force - hand);
            if (s.countsEnergy)
            {
                const double twoSteps = step + striker.step;
                s.flows->work -= 0.5 * hand * twoSteps;
            }
            striker.height += step;
            striker.step = step;
            double elsewhere = striker.mobility * striker.force + (contacts > 0 ? moveFromWires (j) : 0.0);
            for (int other = 0; other < maxStrikers; ++other)
                if (other != j && s.strikers[other].active)
                    elsewhere += striker.crossMobility[other] * s.strikers[other].force;
            const double next = striker.free - elsewhere;
            if (s.countsEnergy)
            {
                const double move = next - striker.compressionBefore;
                const double loss = striker.lossRate * springForce (striker.stiffness, striker.exponent, striker.compression);
                s.flows->contactLoss += 0.5 * loss * move * move;
            }
            striker.compressionBefore = striker.compression;
            striker.compression = next;
            striker.peakForce = std::fmax (striker.peakForce, striker.force);
            striker.contactSamples += striker.force > 0.0 ? 1 : 0;
            ++striker.age;
        }
    }
};

} // namespace
} // namespace engine
