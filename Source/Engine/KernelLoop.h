#pragma once

#include "KernelSticks.h"
#include "KernelTension.h"
#include "KernelView.h"
#include "KernelWires.h"
#include "Pack.h"

#include <algorithm>
#include <cmath>

/** The inner loop, compiled once per instruction set. Internal linkage throughout: see Pack.h. */
namespace engine
{
namespace
{

template <typename Scalar, int lanes>
class Loop
{
public:
    using P = Pack<Scalar, lanes>;

    explicit Loop (KernelView<Scalar>& stateToUse) noexcept : s (stateToUse), wires (stateToUse), sticks (stateToUse) {}

    void run (Scalar* const* outputs, int frames) noexcept
    {
        predictAll();
        if (! wires.arePresent() && ! s.countsEnergy && ! s.tension.isActive && ! sticks.arePresent())
        {
            for (int frame = 0; frame < frames; ++frame)
            {
                advance<Moved::freely> (outputs, frame);
                logForces (frame);
            }
            return;
        }
        for (int frame = 0; frame < frames; ++frame)
        {
            push();
            if (wires.arePresent())
                wires.finish();
            logForces (frame);
            if (s.tension.isActive)
                advance<Moved::byContactsAndTension> (outputs, frame);
            else
                advance<Moved::byContacts> (outputs, frame);
            sticks.finish (outputs, frame);
        }
    }

private:
    KernelView<Scalar>& s;
    WireStep<Scalar, lanes> wires;
    StickStep<Scalar, lanes> sticks;

    /** Computes all forces on the modes for this sample. */
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
        if (wires.arePresent())
            wires.begin();
        sticks.predict();
        settle (sticks.arePresent());
        if (wires.arePresent())
            wires.scatter();
        sticks.scatter();
    }

    void predictAll() noexcept
    {
        P predicted[2] = { P::zero(), P::zero() };
        for (int k = 0; k < s.modes; k += lanes)
        {
            const P q = P::load (s.position + k);
            const P trial = q + P::load (s.keep + k) * P::load (s.step + k) - P::load (s.spring + k) * q;
            trial.store (s.trial + k);
            for (int head = 0; head < 2; ++head)
                predicted[head] = predicted[head] + P::load (s.tension.gradient[head] + k) * (q * trial);
        }
        for (int head = 0; head < 2; ++head)
            s.tension.predicted[head] = static_cast<double> (sumOf (predicted[head]));
    }

    /** Sweeps over sticks and wires until no force changes any more. */
    void settle (bool struck) noexcept
    {
        const bool wired = wires.arePresent();
        const auto fromWires = [&] (const Scalar* const (&rows)[3], double (&moves)[3])
        {
            if (wired)
                wires.moveUnderSticks (rows, moves);
        };
        if (struck && ! wired)
            sticks.solve (fromWires);
        if (! wired)
            return;

        double former = 0.0;
        for (int sweep = 0; sweep < s.maxSweeps; ++sweep)
        {
            double change = 0.0;
            if (struck)
            {
                change = sticks.solve (fromWires);
                if (sweep == 0 || change > 0.0)
                    wires.applySticks();
            }
            const auto swept = wires.sweep();
            change = std::max (change, static_cast<double> (swept.change));
            const double allowed =
                static_cast<double> (s.tolerance) + static_cast<double> (s.relativeTolerance) * static_cast<double> (swept.largest);
            ++s.sweeps;
            // Enough when this sweep changed next to nothing, or when the changes shrink so fast, as a geometric series, that
            // what is still to come would.
            const double rest = sweep > 0 && change < former ? change * change / (former - change) : change;
            if (std::min (change, rest) <= allowed)
                break;
            former = change;
        }
    }

    /** Writes the forces on the heads to the force log, from which the upper band is computed. */
    void logForces (int frame) noexcept
    {
        Scalar* to = s.forceLog + frame;
        for (int i = 0; i < maxSticks; ++i, to += s.forceLogStride)
            *to = static_cast<Scalar> (s.sticks[i].at (StickContactKind::tip).force);
        for (int p = 0; p < s.forcePointCount; ++p, to += s.forceLogStride)
            *to = wires.forceOf (s.forcePoints[p]);
    }

    /** What besides their own springs moves the modes. */
    enum class Moved
    {
        freely,
        byContacts,
        byContactsAndTension
    };

    template <Moved moved>
    void advance (Scalar* const* outputs, int frame) noexcept
    {
        if (s.countsEnergy)
            countModalLoss();
        switch (s.microphones)
        {
        case 0:
            advanceModes<0, moved> (outputs, frame);
            break;
        case 1:
            advanceModes<1, moved> (outputs, frame);
            break;
        case 2:
            advanceModes<2, moved> (outputs, frame);
            break;
        default:
            advanceModes<3, moved> (outputs, frame);
            break;
        }
    }

    /** In one pass: advances every mode, adds it to the microphones and, if anything may drive it, predicts the next sample. */
    template <int microphones, Moved moved>
    void advanceModes (Scalar* const* outputs, int frame) noexcept
    {
        // Two sums per microphone, to break the dependency chain.
        P pressure[microphones + 1], pressureFromVelocity[microphones + 1];
        SNAREWRIGHT_UNROLL
        for (int m = 0; m < microphones; ++m)
            pressure[m] = pressureFromVelocity[m] = P::zero();
        [[maybe_unused]] P predicted[2] = { P::zero(), P::zero() };

        // Local copies of the pointers: the compiler cannot know that arrays behind members of a struct do not overlap.
        const Scalar* const keeps = s.keep;
        const Scalar* const springs = s.spring;
        [[maybe_unused]] const Scalar* const drives = s.drive;
        [[maybe_unused]] const Scalar* const gradients[2] = { s.tension.gradient[0], s.tension.gradient[1] };
        [[maybe_unused]] const P tension[2] = { P::broadcast (static_cast<Scalar> (s.tension.force[0])),
                                                P::broadcast (static_cast<Scalar> (s.tension.force[1])) };
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
            [[maybe_unused]] const P gradient[2] = { P::load (gradients[0] + k), P::load (gradients[1] + k) };
            if constexpr (moved == Moved::byContacts)
                step = step + P::load (drives + k) * P::load (pushes + k);
            if constexpr (moved == Moved::byContactsAndTension)
                step = step +
                       P::load (drives + k) * (P::load (pushes + k) - (tension[0] * gradient[0] + tension[1] * gradient[1]) * q);
            const P position = q + step;
            const P acceleration = step - before, velocity = step + before;
            SNAREWRIGHT_UNROLL
            for (int m = 0; m < microphones; ++m)
            {
                pressure[m] = pressure[m] + acceleration * P::load (ofAcceleration[m] + k);
                pressureFromVelocity[m] = pressureFromVelocity[m] + velocity * P::load (ofVelocity[m] + k);
            }
            step.store (steps + k);
            position.store (positions + k);
            if constexpr (moved != Moved::freely)
            {
                const P trial = position + keep * step - spring * position;
                trial.store (trials + k);
                P::zero().store (pushes + k);
                if constexpr (moved == Moved::byContactsAndTension)
                    for (int head = 0; head < 2; ++head)
                        predicted[head] = predicted[head] + gradient[head] * (position * trial);
            }
        }
        for (int m = 0; m < microphones; ++m)
            outputs[m][frame] += sumOf (pressure[m] + pressureFromVelocity[m]);
        if constexpr (moved == Moved::byContactsAndTension)
            for (int head = 0; head < 2; ++head)
                s.tension.predicted[head] = static_cast<double> (sumOf (predicted[head]));
    }

    void countModalLoss() noexcept
    {
        for (int k = 0; k < s.modes; ++k)
        {
            const auto& tension = s.tension;
            const Scalar pull = static_cast<Scalar> (tension.force[0]) * tension.gradient[0][k] +
                                static_cast<Scalar> (tension.force[1]) * tension.gradient[1][k];
            const double step = static_cast<double> (s.keep[k] * s.step[k] - s.spring[k] * s.position[k] +
                                                     s.drive[k] * (s.push[k] - pull * s.position[k]));
            const double twoSteps = step + static_cast<double> (s.step[k]);
            s.flows->modalLoss += static_cast<double> (s.lossOfStep[k]) * twoSteps * twoSteps;
        }
    }
};

} // namespace
} // namespace engine
