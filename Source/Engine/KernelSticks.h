#pragma once

#include "KernelView.h"
#include "Pack.h"
#include "Roughness.h"
#include "SlipLaw.h"
#include "StretchLaw.h"

#include <algorithm>
#include <cmath>

namespace engine
{
namespace
{

/** The sticks against head and hoop, one sample at a time.

    All contacts of a stick belong to one body: each is moved by the forces of all others through the drum's modes and through the
    stick's own, which together is one symmetric mobility. The contacts are solved one after another until none changes
    (Gauss-Seidel, which converges since the mobility is positive definite and no force falls as its contact closes). */
template <typename Scalar, int lanes>
class StickStep
{
public:
    using P = Pack<Scalar, lanes>;

    explicit StickStep (KernelView<Scalar>& state) noexcept : s (state) {}

    bool arePresent() const noexcept
    {
        for (int i = 0; i < maxSticks; ++i)
            if (s.sticks[i].active)
                return true;
        return false;
    }

    /** What each contact would do if no contact pushed. */
    void predict() noexcept
    {
        touching = 0;
        for (int i = 0; i < maxSticks; ++i)
        {
            auto& stick = s.sticks[i];
            if (! stick.active)
                continue;
            const double hand = stick.handNow();
            for (std::size_t k = 0; k < count (stick); ++k)
                stick.trial[k] = stick.position[k] + stick.keep[k] * stick.step[k] - stick.spring[k] * stick.position[k] -
                                 stick.drive[k] * stick.ofHand[k] * hand;
            if (stick.isWires)
                impose (stick);
            for (int c = 0; c < contactsPerStick; ++c)
            {
                auto& contact = stick.contact[static_cast<std::size_t> (c)];
                if (! contact.active)
                    continue;
                const int j = i * contactsPerStick + c;
                touch[touching++] = { &stick, &contact, j };
                contact.free = contact.offset + contact.imposedNext;
                if (! contact.isSlip)
                    contact.free += dot (s.stickShape[j], s.trial);
                for (std::size_t k = 0; k < count (stick); ++k)
                    contact.free += contact.ofStick[k] * stick.trial[k];
            }
        }
    }

    /** Finds the contacts' forces, the wires' staying as they are. `fromWires (contact)` is how far those open a contact, m. Returns the
        largest change of a force since the last time, N. */
    template <typename FromWires>
    double solve (FromWires fromWires) noexcept
    {
        double former[maxStickContacts], largest = 0.0;
        forEach (
            [&] (StickState&, StickContact& contact, int j)
            {
                former[j] = contact.force;
                contact.fromWires = contact.isSlip ? 0.0 : fromWires (j);
            });
        double formerChange = 0.0;
        const double enough = isForPlaying && touching > 0 && touch[0].stick->isWires ? settledWires : settled;
        for (int turn = 0; turn < mostTurns; ++turn)
        {
            double change = 0.0;
            largest = 0.0;
            forEach (
                [&] (StickState& stick, StickContact& contact, int j)
                {
                    const double force = solveOne (stick, contact, j);
                    change = std::max (change, std::abs (force - contact.force));
                    largest = std::max (largest, std::abs (force));
                    contact.force = force;
                });
            // As near as rounding allows when it no longer comes nearer.
            if (change <= enough * largest || (turn > 2 && change >= formerChange && change <= nearlySettled * largest))
                break;
            formerChange = change;
            ++s.stickTurns;
        }
        double change = 0.0;
        forEach ([&] (StickState&, StickContact& contact, int j)
                 { change = std::max (change, std::abs (contact.force - former[j])); });
        return change;
    }

    /** The forces handed to the drum's modes. */
    void scatter() noexcept
    {
        forEach (
            [&] (StickState&, StickContact& contact, int j)
            {
                if (contact.force == 0.0 || contact.isSlip)
                    return;
                const P force = P::broadcast (static_cast<Scalar> (-contact.force));
                const Scalar* shape = s.stickShape[j];
                for (int k = 0; k < s.modes; k += lanes)
                    (P::load (s.push + k) + force * P::load (shape + k)).store (s.push + k);
            });
    }

    /** Moves sticks and the film under them on; the microphones hear the sticks move. */
    void finish (Scalar* const* outputs, int frame) noexcept
    {
        double ofWires = 0.0;
        forEach (
            [&] (StickState& stick, StickContact& contact, int j)
            {
                closeContact (stick, contact, j);
                ofWires += stick.isWires && ! contact.isSlip ? contact.force : 0.0;
            });
        s.wiresPeakForce = std::max (s.wiresPeakForce, ofWires);
        for (int i = 0; i < maxSticks; ++i)
            if (s.sticks[i].active)
            {
                const double former = s.sticks[i].airForce;
                moveOn (s.sticks[i]);
                if (! s.sticks[i].isWires)
                    hear (s.sticks[i], former, outputs, frame);
            }
    }

private:
    KernelView<Scalar>& s;

    static constexpr bool isForPlaying = sizeof (Scalar) == 4;
    static constexpr double precision = isForPlaying ? 1.0e-8 : 1.0e-15; ///< of a contact's move
    static constexpr double settled = isForPlaying ? 1.0e-6 : 1.0e-15;   ///< of the largest force
    static constexpr double settledWires = 1.0e-3; ///< of a brush, whose groups hardly move one another
    static constexpr double nearlySettled = 1.0e-9;
    static constexpr int mostTurns = isForPlaying ? 24 : 400;

    static std::size_t count (const StickState& stick) noexcept { return static_cast<std::size_t> (stick.modes); }

    struct Touch
    {
        StickState* stick;
        StickContact* contact;
        int j;
    } touch[maxStickContacts]; ///< contacts in this sample
    int touching = 0;

    template <typename Action>
    void forEach (Action action) noexcept
    {
        for (int i = 0; i < touching; ++i)
            action (*touch[i].stick, *touch[i].contact, touch[i].j);
    }

    /** The hand leads a brush's wires on, their tips over the head's roughness as far as they have slipped. */
    void impose (StickState& stick) const noexcept
    {
        auto &tip = stick.at (StickContactKind::tip), &slip = stick.at (StickContactKind::slip);
        slip.imposedNext = stick.swept + stick.handle.stepAlong (stick.age);
        slip.friction = frictionAt ((slip.compression - slip.compressionBefore) / stick.handle.interval);
        const double place = stick.roughPlace + 2.0 * slip.compression - slip.compressionBefore;
        tip.imposedNext = s.roughness * s.roughnessProfile->at (std::max (0.0, place)) - stick.handle.height (stick.age + 1);
    }

    double dot (const Scalar* shape, const Scalar* values) const noexcept
    {
        P sum = P::zero();
        for (int k = 0; k < s.modes; k += lanes)
            sum = sum + P::load (shape + k) * P::load (values + k);
        return static_cast<double> (sumOf (sum));
    }

    /** How far contact j opens by the forces of all contacts, its own left out if `withOwn` is not set, m. */
    double opening (const StickContact& contact, int j, bool withOwn) noexcept
    {
        double sum = contact.fromWires;
        forEach (
            [&] (StickState&, StickContact& other, int i)
            {
                if (i != j || withOwn)
                    sum += contact.mobility[static_cast<std::size_t> (i)] * other.force;
            });
        return sum;
    }

    static double resistance (const StickContact& contact) noexcept
    {
        return contact.lossRate * springForce (contact.stiffness, contact.exponent, contact.compression);
    }

    double solveOne (const StickState& stick, const StickContact& contact, int j) noexcept
    {
        const double wish = contact.free - contact.compressionBefore - opening (contact, j, false);
        const double own = contact.mobility[static_cast<std::size_t> (j)];
        if (contact.isSlip)
            return slipForce (wish, own, contact.friction * std::max (0.0, stick.at (StickContactKind::tip).force));
        if (contact.isStretch)
            return solveStretch (stick.stretch, contact.compressionBefore, wish, own, contact.force, precision).force;
        return solveContact (contact.compressionBefore, wish, own, contact.stiffness, contact.exponent, resistance (contact),
                             contact.force, precision)
            .force;
    }

    void closeContact (StickState& stick, StickContact& contact, int j) noexcept
    {
        const double next = contact.free - opening (contact, j, true);
        if (s.countsEnergy)
        {
            const double move = next - contact.compressionBefore;
            s.flows->contactLoss += 0.5 * move * (contact.isSlip ? contact.force : resistance (contact) * move);
            s.flows->work += 0.5 * contact.force * (contact.imposedNext - contact.imposedBefore);
        }
        contact.imposedBefore = contact.imposed;
        contact.imposed = contact.imposedNext;
        if (contact.samples == 0 && contact.force > 0.0)
            contact.touchedAt = stick.age;
        contact.compressionBefore = contact.compression;
        contact.compression = next;
        contact.peakForce = std::max (contact.peakForce, contact.force);
        contact.samples += contact.force > 0.0 ? 1 : 0;
    }

    void hear (const StickState& stick, double formerAirForce, Scalar* const* outputs, int frame) const noexcept
    {
        const double gap = -stick.at (StickContactKind::tip).compression;
        const double present = std::min (1.0, std::max (0.0, 1.25 * (1.0 - gap / bouncedReach)));
        for (int m = 0; m < s.microphones; ++m)
            outputs[m][frame] += static_cast<Scalar> (
                present * (stick.near[static_cast<std::size_t> (m)] * stick.airForce +
                           stick.far[static_cast<std::size_t> (m)] * (stick.airForce - formerAirForce)));
    }

    void moveOn (StickState& stick) noexcept
    {
        const double hand = stick.handNow();
        stick.airForce = 0.0;
        for (std::size_t k = 0; k < count (stick); ++k)
        {
            double push = 0.0;
            for (const auto& contact : stick.contact)
                if (contact.active)
                    push -= contact.ofStick[k] * contact.force;
            const double next = stick.trial[k] + stick.drive[k] * push, step = next - stick.position[k];
            if (s.countsEnergy)
            {
                const double twoSteps = step + stick.step[k];
                s.flows->work -= 0.5 * hand * stick.ofHand[k] * twoSteps;
                s.flows->modalLoss += stick.lossOfStep[k] * twoSteps * twoSteps;
            }
            stick.airForce += stick.dipole[k] * (step - stick.step[k]);
            stick.position[k] = next;
            stick.step[k] = step;
        }
        stick.swept += stick.isWires ? stick.handle.stepAlong (stick.age) : 0.0;
        ++stick.age;
    }
};

} // namespace
} // namespace engine
