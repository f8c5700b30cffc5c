#pragma once

#include "KernelView.h"
#include "Pack.h"

namespace engine
{
namespace
{

/** Rise of the heads' tension by large strikes, one sample at a time (Berger 1955: the mean stretch of the film raises its
   tension evenly).

    The energy of the stretch is V = Σ_heads rise/4·(∫|∇w|²)², its force on a mode -rise·∫|∇w|²·gradient·position. The force is
   computed before the contacts are solved, so that it adds no equation to them. In return it may only give back energy that it
   has taken before, which is kept in `store`; in a sample that would need more it is left out. This makes it passive for any
   parameters: `store` is never negative, and the energy of modes and store changes only by contacts and losses. */
template <typename Scalar, int lanes>
class TensionStep
{
public:
    using P = Pack<Scalar, lanes>;

    explicit TensionStep (KernelView<Scalar>& state) noexcept : s (state), t (state.tension) {}

    /** Adds the force of the stretch to the trial positions. */
    void begin() noexcept
    {
        // Energy balance needs the mean over this step and the last; the contribution of the contacts is taken from the last.
        for (int head = 0; head < 2; ++head)
            t.force[head] = 0.5 * t.rise[head] * (t.predicted[head] + t.byContacts[head] + t.stretch[head]);
        addToTrial (-1.0);
    }

    /** Call once the contact forces are scattered to the modes. True if the store covers the force of the stretch, which then
       stands in TensionState. Otherwise the force is zero, everything is as before begin(), and the contacts have to be solved
       again. */
    bool finish() noexcept
    {
        P contacts[2] = { P::zero(), P::zero() };
        const Scalar *const positions = s.position, *const drives = s.drive, *const pushes = s.push;
        const Scalar* const gradients[2] = { t.gradient[0], t.gradient[1] };
        for (int i = 0; i < t.spanCount; ++i)
            for (int k = t.spans[i].from, end = t.spans[i].to; k < end; k += lanes)
            {
                const P moved = P::load (positions + k) * P::load (drives + k) * P::load (pushes + k);
                SNAREWRIGHT_UNROLL
                for (int head = 0; head < 2; ++head)
                    contacts[head] = contacts[head] + P::load (gradients[head] + k) * moved;
            }

        double next[2], byContacts[2], store = t.store;
        for (int head = 0; head < 2; ++head)
        {
            byContacts[head] = static_cast<double> (sumOf (contacts[head]));
            next[head] = withoutContacts[head] + byContacts[head];
            store += 0.5 * t.force[head] * (next[head] - t.stretch[head]);
        }
        if (store < 0.0)
        {
            addToTrial (1.0);
            for (int k = 0; k < s.modes; k += lanes)
                P::zero().store (s.push + k);
            t.force[0] = t.force[1] = 0.0;
            return false;
        }
        t.store = store;
        for (int head = 0; head < 2; ++head)
        {
            t.stretch[head] = next[head];
            t.byContacts[head] = byContacts[head];
        }
        return true;
    }

private:
    KernelView<Scalar>& s;
    TensionState<Scalar>& t;
    double withoutContacts[2] = {}; ///< m², what the stretch becomes if no contact pushes

    void addToTrial (double sign) noexcept
    {
        const P force[2] = { P::broadcast (static_cast<Scalar> (sign * t.force[0])),
                             P::broadcast (static_cast<Scalar> (sign * t.force[1])) };
        const Scalar *const positions = s.position, *const drives = s.drive;
        const Scalar* const gradients[2] = { t.gradient[0], t.gradient[1] };
        Scalar* const trials = s.trial;
        P sums[2] = { P::zero(), P::zero() };
        for (int i = 0; i < t.spanCount; ++i)
            for (int k = t.spans[i].from, end = t.spans[i].to; k < end; k += lanes)
            {
                const P q = P::load (positions + k);
                const P weighted[2] = { P::load (gradients[0] + k) * q, P::load (gradients[1] + k) * q };
                const P pull = force[0] * weighted[0] + force[1] * weighted[1];
                const P trial = P::load (trials + k) + P::load (drives + k) * pull;
                trial.store (trials + k);
                SNAREWRIGHT_UNROLL
                for (int head = 0; head < 2; ++head)
                    sums[head] = sums[head] + weighted[head] * trial;
            }
        for (int head = 0; head < 2; ++head)
            withoutContacts[head] = static_cast<double> (sumOf (sums[head]));
    }
};

} // namespace
} // namespace engine
