#pragma once

#include "ContactLaw.h"
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

    explicit Loop (KernelView<Scalar>& stateToUse) noexcept : s (stateToUse), wires (stateToUse) {}

    void run (Scalar* const* outputs, int frames) noexcept
    {
        predictAll();
        if (! wires.arePresent() && ! s.countsEnergy && ! s.tension.isActive && ! isStruck())
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
            finishStrikers();
        }
    }

private:
    KernelView<Scalar>& s;
    WireStep<Scalar, lanes> wires;

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
        const bool struck = predictStrikers();
        settle (struck);
        if (wires.arePresent())
            wires.scatter();
        scatterStrikers();
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

    bool isStruck() const noexcept
    {
        for (int j = 0; j < maxStrikers; ++j)
            if (s.strikers[j].active)
                return true;
        return false;
    }

    /** Predicts each striker's compression without force; true if any is or was in contact. */
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

    double solveStrikers() noexcept
    {
        // Relative precision of a contact's move; single precision modes could not use more.
        constexpr double precision = sizeof (Scalar) == 4 ? 1.0e-8 : 1.0e-15;
        double largest = 0.0;
        for (int j = 0; j < maxStrikers; ++j)
        {
            auto& striker = s.strikers[j];
            if (! striker.active)
                continue;
            double elsewhere = wires.arePresent() ? wires.moveUnderStriker (j) : 0.0;
            for (int other = 0; other < maxStrikers; ++other)
                if (other != j && s.strikers[other].active)
                    elsewhere += striker.crossMobility[other] * s.strikers[other].force;
            const double loss = striker.lossRate * springForce (striker.stiffness, striker.exponent, striker.compression);
            const auto solved =
                solveContact (striker.compressionBefore, striker.free - striker.compressionBefore - elsewhere, striker.mobility,
                              striker.stiffness, striker.exponent, loss, striker.force, precision);
            largest = std::max (largest, std::abs (solved.force - striker.force));
            striker.force = solved.force;
        }
        return largest;
    }

    /** Iterates over strikers and wires until the forces converge. */
    void settle (bool struck) noexcept
    {
        if (! struck)
            for (int j = 0; j < maxStrikers; ++j)
                s.strikers[j].force = 0.0;
        if (! wires.arePresent() && ! struck)
            return;

        int activeStrikers = 0;
        for (int j = 0; j < maxStrikers; ++j)
            activeStrikers += s.strikers[j].active ? 1 : 0;

        double former = 0.0;
        for (int sweep = 0; sweep < s.maxSweeps; ++sweep)
        {
            double change = struck ? solveStrikers() : 0.0;
            double allowed = static_cast<double> (s.tolerance);
            if (wires.arePresent())
            {
                if (struck)
                    wires.applyStrikers();
                const auto swept = wires.sweep();
                change = std::max (change, static_cast<double> (swept.change));
                allowed += static_cast<double> (s.relativeTolerance) * static_cast<double> (swept.largest);
                ++s.sweeps;
            }
            else if (activeStrikers == 1)
                break;
            // Converged if this sweep changed little, or if the changes fall like a geometric series whose remaining sum is
            // small.
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
        for (int j = 0; j < maxStrikers; ++j, to += s.forceLogStride)
            *to = static_cast<Scalar> (s.strikers[j].force);
        for (int p = 0; p < s.forcePointCount; ++p, to += s.forceLogStride)
            *to = wires.forceOf (s.forcePoints[p]);
    }

    void scatterStrikers() noexcept
    {
        for (int j = 0; j < maxStrikers; ++j)
        {
            if (! s.strikers[j].active || s.strikers[j].force == 0.0)
                continue;
            const P force = P::broadcast (static_cast<Scalar> (-s.strikers[j].force));
            const Scalar* shape = s.strikerShape[j];
            for (int k = 0; k < s.modes; k += lanes)
                (P::load (s.push + k) + force * P::load (shape + k)).store (s.push + k);
        }
    }

    /** What drives the modes. */
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
            double elsewhere = striker.mobility * striker.force + (wires.arePresent() ? wires.moveUnderStriker (j) : 0.0);
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
            striker.peakForce = std::max (striker.peakForce, striker.force);
            striker.contactSamples += striker.force > 0.0 ? 1 : 0;
            ++striker.age;
        }
    }
};

} // namespace
} // namespace engine
