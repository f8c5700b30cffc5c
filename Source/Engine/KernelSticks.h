#pragma once

#include "KernelBrush.h"
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
    static constexpr std::size_t wide = lanes * sizeof (Scalar) / sizeof (double);
    using D = Pack<double, static_cast<int> (wide)>; ///< for the sticks themselves

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
        onlyWires = true;
        isSolved = false;
        brush.clear();
        for (int i = 0; i < maxSticks; ++i)
        {
            auto& stick = s.sticks[i];
            if (! stick.active)
                continue;
            const D hand = D::broadcast (stick.handNow());
            for (std::size_t k = 0; k < count (stick); k += wide)
            {
                const D at = D::load (&stick.position[k]);
                (at + D::load (&stick.keep[k]) * D::load (&stick.step[k]) - D::load (&stick.spring[k]) * at -
                 D::load (&stick.drive[k]) * D::load (&stick.ofHand[k]) * hand)
                    .store (&stick.trial[k]);
            }
            onlyWires = onlyWires && stick.isWires;
            if (stick.isWires)
            {
                impose (stick);
                brush.add (stick, i * contactsPerStick);
            }
            for (int c = 0; c < contactsPerStick; ++c)
            {
                auto& contact = stick.contact[static_cast<std::size_t> (c)];
                if (! contact.active)
                    continue;
                const int j = i * contactsPerStick + c;
                touch[touching++] = { &stick, &contact, j };
                D bent = D::zero();
                for (std::size_t k = 0; k < count (stick); k += wide)
                    bent = bent + D::load (&contact.ofStick[k]) * D::load (&stick.trial[k]);
                contact.free = contact.offset + contact.imposedNext + sumOf (bent);
            }
        }
        addSurfaces();
        openFromForces();
        brush.prepare();
    }

    /** Finds the contacts' forces, the wires' staying as they are. `fromWires` says how far those open three contacts, see
        WireStep::moveUnderSticks(). Returns the largest change of a force since the last time, N. */
    template <typename FromWires>
    double solve (FromWires fromWires) noexcept
    {
        double former[maxStickContacts], shift = 0.0;
        forEach ([&] (StickState&, StickContact& contact, int j) { former[j] = contact.force; });
        forEachThree (s.stickToWire, isOnDrum,
                      [&] (const Scalar* const(&moved)[3], const Touch* const(&three)[3])
                      {
                          double now[3] = {};
                          fromWires (moved, now);
                          for (int i = 0; i < 3; ++i)
                              if (three[i] != nullptr)
                              {
                                  auto& contact = *three[i]->contact;
                                  const double own = contact.mobility[static_cast<std::size_t> (three[i]->j)];
                                  shift = std::max (shift, std::abs (now[i] - contact.fromWires) / own);
                                  contact.fromWires = now[i];
                              }
                      });
        if (onlyWires && isSolved && shift <= settledWires * largest)
            return 0.0;
        isSolved = true;
        double formerChange = 0.0;
        for (int turn = 0; turn < mostTurns; ++turn)
        {
            double change = 0.0;
            largest = 0.0;
            forEach (
                [&] (StickState& stick, StickContact& contact, int j)
                {
                    if (stick.isWires)
                        return;
                    const double force = solveOne (stick, contact, j);
                    change = std::max (change, std::abs (force - contact.force));
                    largest = std::max (largest, std::abs (force));
                    setForce (contact, force);
                });
            solveBrushes (change, largest);
            // As near as rounding allows when it no longer comes nearer.
            if (onlyWires || change <= settled * largest ||
                (turn > 2 && change >= formerChange && change <= nearlySettled * largest))
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
        forEachThree (
            s.stickShape, [] (const StickContact& contact) { return contact.force != 0.0 && isOnDrum (contact); },
            [&] (const Scalar* const(&shape)[3], const Touch* const(&three)[3])
            {
                P force[3];
                SNAREWRIGHT_UNROLL
                for (int i = 0; i < 3; ++i)
                    force[i] = P::broadcast (three[i] != nullptr ? static_cast<Scalar> (-three[i]->contact->force) : Scalar (0));
                Scalar* const pushes = s.push;
                for (int k = 0; k < s.modes; k += lanes)
                    (P::load (pushes + k) + force[0] * P::load (shape[0] + k) + force[1] * P::load (shape[1] + k) +
                     force[2] * P::load (shape[2] + k))
                        .store (pushes + k);
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
    static constexpr double settledWires =
        isForPlaying ? 3.0e-3 : settled; ///< of a brush: the next of Newton's steps is about the square
    static constexpr double nearlySettled = 1.0e-9;
    /** In double precision turns cost nothing that is heard: of ten thousand random drums two, with very stiff tips, took more
       than 400. */
    static constexpr int mostTurns = isForPlaying ? 24 : 4000;

    static std::size_t count (const StickState& stick) noexcept { return static_cast<std::size_t> (stick.modes); }

    struct Touch
    {
        StickState* stick;
        StickContact* contact;
        int j;
    } touch[maxStickContacts]; ///< contacts in this sample
    int touching = 0;
    bool onlyWires = true; ///< all of them a brush's
    bool isSolved = false; ///< in this sample, the snare wires being elsewhere then
    double largest = 0.0;  ///< N, of the forces as they were found last
    alignas (
        64) std::array<double, wholePacks (maxStickContacts)> opened{}; ///< m, how far each contact opens by all their forces
    BrushStep<static_cast<int> (wide)> brush;

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
        slip.imposedNext = slip.imposed + stick.handle.stepAlong (stick.age);
        slip.friction = frictionAt ((slip.compression - slip.compressionBefore) / stick.handle.interval);
        const double place = stick.roughPlace + 2.0 * slip.compression - slip.compressionBefore;
        tip.imposedNext = s.roughness * s.roughnessProfile->at (std::max (0.0, place)) - stick.handle.height (stick.age + 1);
    }

    static bool isOnDrum (const StickContact& contact) noexcept { return ! contact.isSlip; }

    /** Passes the contacts that are chosen on by threes, with the rows of a table that are theirs, so that what these are
       multiplied with is read once for three. The last may be fewer: the rest are null, with the first one's row. */
    template <typename Choose, typename Action>
    void forEachThree (const Scalar* const (&table)[maxStickContacts], Choose choose, Action action) noexcept
    {
        const Scalar* row[3] = {};
        const Touch* three[3] = {};
        int count = 0;
        const auto pass = [&]
        {
            for (int i = count; i < 3; ++i)
            {
                row[i] = row[0];
                three[i] = nullptr;
            }
            action (row, three);
            count = 0;
        };
        for (int t = 0; t < touching; ++t)
            if (choose (*touch[t].contact))
            {
                row[count] = table[touch[t].j];
                three[count] = touch + t;
                if (++count == 3)
                    pass();
            }
        if (count > 0)
            pass();
    }

    /** Adds how the drum's modes press the contacts if no contact pushes. */
    void addSurfaces() noexcept
    {
        forEachThree (s.stickShape, isOnDrum,
                      [&] (const Scalar* const(&shape)[3], const Touch* const(&three)[3])
                      {
                          P sum[3] = { P::zero(), P::zero(), P::zero() };
                          const Scalar* const trials = s.trial;
                          for (int k = 0; k < s.modes; k += lanes)
                          {
                              const P trial = P::load (trials + k);
                              SNAREWRIGHT_UNROLL
                              for (int i = 0; i < 3; ++i)
                                  sum[i] = sum[i] + trial * P::load (shape[i] + k);
                          }
                          for (int i = 0; i < 3; ++i)
                              if (three[i] != nullptr)
                                  three[i]->contact->free += static_cast<double> (sumOf (sum[i]));
                      });
    }

    void openFromForces() noexcept
    {
        opened.fill (0.0);
        forEach ([&] (StickState&, StickContact& contact, int) { addOpening (contact, contact.force); });
    }

    void addOpening (const StickContact& contact, double force) noexcept
    {
        if (force == 0.0)
            return;
        const D more = D::broadcast (force);
        const auto end = static_cast<std::size_t> (touch[touching - 1].j) + 1;
        for (std::size_t i = 0; i < end; i += wide)
            (D::load (&opened[i]) + more * D::load (&contact.mobility[i])).store (&opened[i]);
    }

    void setForce (StickContact& contact, double force) noexcept
    {
        addOpening (contact, force - contact.force);
        contact.force = force;
    }

    /** How far contact j opens by the forces of all contacts, m. */
    double opening (const StickContact& contact, std::size_t j) const noexcept { return contact.fromWires + opened[j]; }

    /** Finds the forces of all brushes' wires; raises `change` and `largest` to theirs. */
    void solveBrushes (double& change, double& most) noexcept
    {
        if (brush.isEmpty())
            return;
        brush.solve ([&] (const StickContact& tip, std::size_t j) { return opening (tip, j); }, settledWires, mostTurns);
        for (std::size_t g = 0; g < brush.groups(); ++g)
        {
            change = std::max (change, std::abs (brush.tipForce (g) - brush.tip (g).force));
            most = std::max (most, std::abs (brush.tipForce (g)));
            setForce (brush.tip (g), brush.tipForce (g));
            setForce (brush.slip (g), brush.slipForce (g));
        }
    }

    static double resistance (const StickContact& contact) noexcept
    {
        return contact.lossRate * springForce (contact.stiffness, contact.exponent, contact.compression);
    }

    double solveOne (const StickState& stick, const StickContact& contact, int j) noexcept
    {
        const double wish = contact.free - contact.compressionBefore - opening (contact, static_cast<std::size_t> (j)) +
                            contact.mobility[static_cast<std::size_t> (j)] * contact.force;
        const double own = contact.mobility[static_cast<std::size_t> (j)];
        if (contact.isStretch)
            return solveStretch (stick.stretch, contact.compressionBefore, wish, own, contact.force, precision).force;
        return solveContact (contact.compressionBefore, wish, own, contact.stiffness, contact.exponent, resistance (contact),
                             contact.force, precision)
            .force;
    }

    void closeContact (StickState& stick, StickContact& contact, int j) noexcept
    {
        const double next = contact.free - opening (contact, static_cast<std::size_t> (j));
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
            outputs[m][frame] +=
                static_cast<Scalar> (present * (stick.near[static_cast<std::size_t> (m)] * stick.airForce +
                                                stick.far[static_cast<std::size_t> (m)] * (stick.airForce - formerAirForce)));
    }

    void moveOn (StickState& stick) noexcept
    {
        D force[contactsPerStick], airForce = D::zero(), handWork = D::zero(), loss = D::zero();
        for (std::size_t c = 0; c < contactsPerStick; ++c)
            force[c] = D::broadcast (stick.contact[c].active ? stick.contact[c].force : 0.0);
        for (std::size_t k = 0; k < count (stick); k += wide)
        {
            D push = D::zero();
            SNAREWRIGHT_UNROLL
            for (std::size_t c = 0; c < contactsPerStick; ++c)
                push = push + D::load (&stick.contact[c].ofStick[k]) * force[c];
            const D former = D::load (&stick.step[k]), next = D::load (&stick.trial[k]) - D::load (&stick.drive[k]) * push;
            const D step = next - D::load (&stick.position[k]), twoSteps = step + former;
            handWork = handWork - D::load (&stick.ofHand[k]) * twoSteps;
            loss = loss + D::load (&stick.lossOfStep[k]) * twoSteps * twoSteps;
            airForce = airForce + D::load (&stick.dipole[k]) * (step - former);
            next.store (&stick.position[k]);
            step.store (&stick.step[k]);
        }
        stick.airForce = sumOf (airForce);
        if (s.countsEnergy)
        {
            s.flows->work += 0.5 * stick.handNow() * sumOf (handWork);
            s.flows->modalLoss += sumOf (loss);
        }
        ++stick.age;
    }
};

} // namespace
} // namespace engine
