#pragma once

#include "KernelView.h"
#include "Pack.h"

namespace engine
{
namespace
{

/** How large strikes raise the heads' tension, one sample at a time (Berger 1955: the film's mean stretch raises its tension
   evenly).

    The energy of the stretch is V = Σ_heads rise/4·(∫|∇w|²)², its force on a mode -rise·∫|∇w|²·gradient·position. That force is
   found before the contacts are, so that it costs no row in their equations; in return the energy it may give is what it has
   taken before, kept in `store`. A sample in which more would be asked for goes without it. That makes it passive for any values:
   `store` stays at or above zero, and modes and store together change by nothing but what contacts and losses do. */
template <typename Scalar, int lanes>
class TensionStep
{
public:
    using P = Pack<Scalar, lanes>;

    explicit TensionStep (KernelView<Scalar>& state) noexcept : s (state), t (state.tension) {}

    /** Takes the force of the stretch into the trial positions. */
    void begin() noexcept
    {
        // The force that keeps the balance is the mean over this step and the last; contacts are taken to do as they did.
        const Scalar *const positions = s.position, *const trials = s.trial;
        const Scalar *const batter = t.gradient[0], *const resonant = t.gradient[1];
        // Two sums a head, so that additions do not wait for one another.
        P ofBatter[2] = { P::zero(), P::zero() }, ofResonant[2] = { P::zero(), P::zero() };
        const auto add = [&] (int k, int chain)
        {
            const P product = P::load (positions + k) * P::load (trials + k);
            ofBatter[chain] = ofBatter[chain] + P::load (batter + k) * product;
            ofResonant[chain] = ofResonant[chain] + P::load (resonant + k) * product;
        };
        for (int i = 0; i < t.spanCount; ++i)
        {
            int k = t.spans[i].from;
            for (; k + lanes < t.spans[i].to; k += 2 * lanes)
            {
                add (k, 0);
                add (k + lanes, 1);
            }
            if (k < t.spans[i].to)
                add (k, 0);
        }
        const Scalar ahead[2] = { sumOf (ofBatter[0] + ofBatter[1]), sumOf (ofResonant[0] + ofResonant[1]) };
        for (int head = 0; head < 2; ++head)
            t.force[head] = 0.5 * t.rise[head] * (static_cast<double> (ahead[head]) + t.byContacts[head] + t.stretch[head]);
        addToTrial (-1.0);
    }

    /** Once the contacts' forces are with the modes: adds that of the stretch, unless the store cannot pay for it. False then,
       with everything as it was before begin(), and the contacts have to be solved again. */
    bool finish() noexcept
    {
        P trials[2] = { P::zero(), P::zero() }, contacts[2] = { P::zero(), P::zero() };
        const P force[2] = { P::all (static_cast<Scalar> (t.force[0])), P::all (static_cast<Scalar> (t.force[1])) };
        const Scalar *const positions = s.position, *const trialPositions = s.trial, *const drives = s.drive;
        const Scalar* const gradients[2] = { t.gradient[0], t.gradient[1] };
        Scalar* const pushes = s.push;
        for (int i = 0; i < t.spanCount; ++i)
            for (int k = t.spans[i].from, end = t.spans[i].to; k < end; k += lanes)
            {
                const P q = P::load (positions + k), trial = P::load (trialPositions + k);
                const P push = P::load (pushes + k), moved = P::load (drives + k) * push;
                P pull = P::zero();
                SNAREWRIGHT_UNROLL
                for (int head = 0; head < 2; ++head)
                {
                    const P weighted = P::load (gradients[head] + k) * q;
                    trials[head] = trials[head] + weighted * trial;
                    contacts[head] = contacts[head] + weighted * moved;
                    pull = pull + force[head] * weighted;
                }
                (push - pull).store (pushes + k);
            }

        double next[2], byContacts[2], store = t.store;
        for (int head = 0; head < 2; ++head)
        {
            byContacts[head] = static_cast<double> (sumOf (contacts[head]));
            next[head] = static_cast<double> (sumOf (trials[head])) + byContacts[head];
            store += 0.5 * t.force[head] * (next[head] - t.stretch[head]);
        }
        if (store < 0.0)
        {
            addToTrial (1.0);
            for (int k = 0; k < s.modes; k += lanes)
                P::zero().store (pushes + k);
            t.force[0] = t.force[1] = 0.0;
            ++t.samplesWithout;
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

    void addToTrial (double sign) noexcept
    {
        const P ofBatter = P::all (static_cast<Scalar> (sign * t.force[0]));
        const P ofResonant = P::all (static_cast<Scalar> (sign * t.force[1]));
        const Scalar *const positions = s.position, *const drives = s.drive;
        const Scalar *const batter = t.gradient[0], *const resonant = t.gradient[1];
        Scalar* const trials = s.trial;
        for (int i = 0; i < t.spanCount; ++i)
            for (int k = t.spans[i].from, end = t.spans[i].to; k < end; k += lanes)
            {
                const P pull = ofBatter * P::load (batter + k) + ofResonant * P::load (resonant + k);
                (P::load (trials + k) + P::load (drives + k) * P::load (positions + k) * pull).store (trials + k);
            }
    }
};

} // namespace
} // namespace engine
