// Sticks that come, push and leave. What they do in between is in KernelSticks.h.

#include "Drum.h"

#include "Bank.h"
#include "ContactLaw.h"

#include "Modal/Units.h"
#include "Modal/hardware/BrushBody.h"

#include <Eigen/Core>

#include <algorithm>
#include <cmath>

namespace engine
{
namespace
{

/** A stick that rises higher than this above head and hoop and is not pulled back has done its work, m: while its hand presses or
    lifts. See bouncedReach for one that has bounced off. */
constexpr double heldReach = 0.02;

/** How high the stick is over the head where it is taken to sound from, m: it lies on the hoop. Common practice, no source. */
constexpr double stickHeight = 0.02;

/** No stick stays longer than this, s. */
constexpr double longestStay = 3.0;

/** How high the groups of a brush's wires come down, as shares of the scatter of its tips, from side to side of the fan. Common
   practice, no source: evenly spread, in no order. */
constexpr double scatter[] = { 0.55, 0.2, 0.0, 0.85, 0.4, 1.0 };
static_assert (std::size (scatter) == modal::brushGroups);

/** From one group to the next in the head's roughness, and from one landing to the next, m: any that are no multiples of each
   other. Common practice, no source. */
constexpr double roughShift = 23.0e-3, landingShift = 7.3e-3;

/** A sweeping brush's wires are put to their new places once in so many turns of tidying, each group in another. */
constexpr int turnsToMove = 3;

double storedIn (const StickState& stick, const StickContact& contact, double compression) noexcept
{
    if (contact.isSlip)
        return 0.0;
    return contact.isStretch ? stick.stretch.energy (compression)
                             : storedEnergy (contact.stiffness, contact.exponent, compression);
}

/** Of its motion, in its contacts and in the film under it, J. */
double stickEnergy (const StickState& stick) noexcept
{
    double sum = 0.0;
    for (std::size_t k = 0; k < static_cast<std::size_t> (stick.modes); ++k)
        sum += ModalRecursion{ stick.keep[k], stick.spring[k], stick.drive[k] }.energy (stick.position[k], stick.step[k]);
    for (const auto& contact : stick.contact)
        if (contact.active)
            sum += 0.5 * (storedIn (stick, contact, contact.compression) + storedIn (stick, contact, contact.compressionBefore));
    return sum;
}

} // namespace

/** Where the next body goes: a free place, or that of the oldest of its kind. */
template <typename Scalar>
int BasicDrum<Scalar>::freeSlot (bool isForWires) noexcept
{
    int free = -1, oldest = -1, sameKind = 0;
    for (int i = 0; i < maxSticks; ++i)
    {
        const auto& stick = sticks[static_cast<std::size_t> (i)];
        if (! stick.active)
            free = free < 0 ? i : free;
        else if (stick.isWires == isForWires)
        {
            ++sameKind;
            if (oldest < 0 || stick.age > sticks[static_cast<std::size_t> (oldest)].age)
                oldest = i;
        }
    }
    const bool isFull = ! isForWires && sameKind >= mostWholeSticks;
    return free >= 0 && ! isFull ? free : std::max (0, oldest);
}

template <typename Scalar>
void BasicDrum<Scalar>::land (const Blow& blow) noexcept
{
    silent = false;
    const auto& stick = current->setup().stick;
    if (! stick.isBrush())
    {
        landBody (blow, 0);
        return;
    }
    view.wiresPeakForce = 0.0;
    fanTouch = {};
    ++fansLanded;
    for (int group = 0; group < stick.groups; ++group)
        landBody (blow, group);
}

template <typename Scalar>
void BasicDrum<Scalar>::landBody (const Blow& blow, int group) noexcept
{
    const bool isBrush = current->setup().stick.isBrush();
    const int slot = freeSlot (isBrush);
    const auto index = static_cast<std::size_t> (slot);
    auto& stick = sticks[index];
    removeStick (stick);

    began[index] = landed[index] = blow;
    if (isBrush)
    {
        setWires (stick, blow, group);
        landed[index] = sweptTo (blow, 0.0, stick.lateral, current->setup().modes.radius);
    }
    else
    {
        setStick (stick, blow);
        hearStick (stick, blow);
    }
    setFilm (stick);
    shapeContacts (slot);
    upperBand.place (slot, landed[index], *current);

    const double distance = blow.hoopDistance;
    const double tipSpeed = blow.isLaid ? 0.0 : blow.speed;
    const double shaftSpeed = blow.isLaid ? blow.speed : blow.speed * (1.0 - distance / blow.swingLength);
    const double scatterHeight = current->setup().stick.tipScatter * scatter[group];
    const double gaps[contactsPerStick] = { isBrush ? scatterHeight : std::max (0.0, -blow.hoopLag * tipSpeed), 0.0,
                                            std::max (0.0, blow.hoopLag * shaftSpeed) };
    for (int c = 0; c < contactsPerStick; ++c)
    {
        auto& contact = stick.contact[static_cast<std::size_t> (c)];
        const int at = slot * contactsPerStick + c;
        const double surface = surfaceAt (at, position.data());
        const double approach =
            surfaceAt (at, step.data()) + contact.pressedBy (stick.step) + contact.imposed - contact.imposedBefore;
        // The stick arrives where head and hoop are now, or in a moment; none comes from inside. The stretch is as the film is.
        const bool isStretch = c == static_cast<int> (StickContactKind::stretch);
        contact.compression = isStretch ? surface : contact.isSlip ? 0.0 : std::min (-gaps[c], approach);
        contact.offset = contact.compression - surface - contact.imposed;
        contact.compressionBefore = contact.compression - approach;
    }
    if (view.countsEnergy)
        flows.work += stickEnergy (stick);
    stick.active = true;
    measureContacts (slot);
}

/** One group of a brush's wires as the hand brings them down, at rest against the handle. */
template <typename Scalar>
void BasicDrum<Scalar>::setWires (StickState& stick, const Blow& blow, int group) const noexcept
{
    const auto& body = current->setup().stick;
    const double T = current->interval(), across = std::cos (body.lean), along = std::sin (body.lean);
    stick.isWires = true;
    stick.fan = fansLanded;
    stick.handle = { T, blow.speed, blow.awaySpeed, blow.sweepSpeed, 1.0 / std::max (blow.handTime, T), blow.holdTime };
    stick.lateral = body.fanWidth * ((group + 0.5) / body.groups - 0.5);
    stick.roughPlace = roughShift * group + landingShift * (fansLanded % 16);

    auto &tip = stick.at (StickContactKind::tip), &slip = stick.at (StickContactKind::slip);
    tip.active = slip.active = slip.isSlip = true;
    tip.stiffness = body.tipStiffness;
    tip.exponent = 1.5; // KernelBrush.h has Hertz's law built in
    tip.lossRate = 0.5 * body.contactDamping / T;
    tip.imposed = view.roughness * view.roughnessProfile->at (stick.roughPlace);
    tip.imposedBefore = tip.imposed - blow.speed * T;

    for (std::size_t k = 0; k < static_cast<std::size_t> (body.modes); ++k)
    {
        const auto& mode = body.mode[k];
        if (mode.frequency >= highestShareOfRate / T)
            break;
        const auto recursion = ModalRecursion::from (mode.frequency, mode.decay, T);
        stick.keep[k] = recursion.keep;
        stick.spring[k] = recursion.spring;
        stick.drive[k] = recursion.drive;
        stick.lossOfStep[k] = recursion.lossOfStep();
        // A wire that trails behind the handle and bends upwards takes its tip up and back.
        tip.ofStick[k] = -across * mode.at (0.0);
        slip.ofStick[k] = -along * mode.at (0.0);
        // Carried along by the handle, it stays behind when that is pushed.
        stick.ofHand[k] = across * mode.ofTranslation;
        stick.bodyModes = static_cast<int> (k) + 1;
    }
    stick.modes = stick.bodyModes;
}

/** Puts a sweeping brush's wires where the hand has led them. What their contacts hold changes a little with the shape of the
   modes there, which is the hand's work. */
template <typename Scalar>
void BasicDrum<Scalar>::moveBrushes() noexcept
{
    tidyTurn = (tidyTurn + 1) % turnsToMove;
    for (int slot = 0; slot < maxSticks; ++slot)
    {
        const auto index = static_cast<std::size_t> (slot);
        auto& stick = sticks[index];
        if (! stick.active || ! stick.isWires || stick.handle.along == 0.0 || slot % turnsToMove != tidyTurn)
            continue;
        auto& tip = stick.at (StickContactKind::tip);
        const double storedBefore = storedIn (stick, tip, tip.compressionBefore);
        landed[index] =
            sweptTo (began[index], stick.at (StickContactKind::slip).imposed, stick.lateral, current->setup().modes.radius);
        shapeContacts (slot);
        upperBand.place (slot, landed[index], *current);
        const int j = slot * contactsPerStick + static_cast<int> (StickContactKind::tip);
        const double approach = surfaceAt (j, step.data()) + tip.pressedBy (stick.step) + tip.imposed - tip.imposedBefore;
        tip.offset = tip.compression - surfaceAt (j, position.data()) - tip.pressedBy (stick.position) - tip.imposed;
        tip.compressionBefore = tip.compression - approach;
        if (view.countsEnergy)
            flows.work += 0.5 * (storedIn (stick, tip, tip.compressionBefore) - storedBefore);
        measureContacts (slot);
    }
}

template <typename Scalar>
void BasicDrum<Scalar>::endSweeps() noexcept
{
    for (auto& stick : sticks)
        if (stick.active && stick.isWires && stick.handle.along > 0.0)
            stick.handle.leaveTime = std::min (stick.handle.leaveTime, stick.age * current->interval());
    for (int i = 0; i < waitingCount; ++i)
        if (auto& blow = waiting[static_cast<std::size_t> (i)].blow; blow.sweepSpeed > 0.0)
            blow.holdTime = 0.0;
}

/** A stick as it comes down, with its contacts' laws. */
template <typename Scalar>
void BasicDrum<Scalar>::setStick (StickState& stick, const Blow& blow) const noexcept
{
    const auto& setup = current->setup();
    const auto& body = blow.isLaid ? setup.laidStick : setup.stick;
    const double T = current->interval();
    stick.bodyModes = body.modes;
    stick.rigidModes = body.rigidModes;
    stick.handPush = blow.hand;
    stick.handLift = blow.lift;
    stick.liftAfter = static_cast<int> (blow.holdTime / T);
    stick.handWithin = static_cast<int> (blow.handTime / T);
    stick.stretch = current->stretchUnderTip();

    auto& tip = stick.at (StickContactKind::tip);
    auto& stretch = stick.at (StickContactKind::stretch);
    auto& shaft = stick.at (StickContactKind::shaft);
    tip.active = true;
    tip.stiffness = body.tipStiffness;
    tip.exponent = body.tipExponent;
    shaft.active = blow.meetsHoop;
    shaft.stiffness = body.shaftStiffness;
    tip.lossRate = shaft.lossRate = 0.5 * body.contactDamping / T;
    stretch.active = stick.stretch.soft > 0.0;
    stretch.isStretch = true;

    // It comes down with the speed offset + slope·place along it.
    const double slope = blow.isLaid ? -blow.speed / blow.hoopDistance : blow.speed / blow.swingLength;
    const double offset = -slope * body.tipPlace - (blow.isLaid ? 0.0 : blow.speed);
    for (std::size_t k = 0; k < static_cast<std::size_t> (body.modes); ++k)
    {
        const auto& mode = body.mode[k];
        const bool fits = mode.frequency < highestShareOfRate / T;
        if (! fits)
        {
            stick.bodyModes = static_cast<int> (k);
            break;
        }
        const auto recursion =
            mode.frequency > 0.0 ? ModalRecursion::from (mode.frequency, mode.decay, T) : ModalRecursion::free (T);
        stick.keep[k] = recursion.keep;
        stick.spring[k] = recursion.spring;
        stick.drive[k] = recursion.drive;
        stick.lossOfStep[k] = recursion.lossOfStep();
        stick.dipole[k] = mode.dipole;
        stick.step[k] = T * (offset * mode.ofTranslation + slope * mode.ofRotation);
        tip.ofStick[k] = -mode.at (body.tipPlace / body.length);
        shaft.ofStick[k] = -mode.at ((body.tipPlace + blow.hoopDistance) / body.length);
        // A force at the hand and the couple that carries it to the tip.
        stick.ofHand[k] = mode.atHand - (body.handPlace - body.tipPlace) * mode.turnAtHand;
    }
    stick.modes = stick.bodyModes;
}

template <typename Scalar>
void BasicDrum<Scalar>::shapeContacts (int slot) noexcept
{
    const auto& blow = landed[static_cast<std::size_t> (slot)];
    const auto& stretch = sticks[static_cast<std::size_t> (slot)].at (StickContactKind::stretch);
    const auto to = [&] (StickContactKind kind)
    { return stickShape[static_cast<std::size_t> (slot * contactsPerStick) + static_cast<std::size_t> (kind)].data(); };
    current->headShape (blow.radius, blow.angle, to (StickContactKind::tip));
    if (stretch.active)
        current->stretchShape (blow.radius, blow.angle, to (StickContactKind::stretch));
    else
        std::fill_n (to (StickContactKind::stretch), view.modes, Scalar (0));
    if (blow.meetsHoop)
        current->hoopShape (blow.hoopAngle, to (StickContactKind::shaft));
    else
        std::fill_n (to (StickContactKind::shaft), view.modes, Scalar (0));
}

/** Puts the film's short waves behind the stick's modes. Those that are there already keep their energy, others are at rest. */
template <typename Scalar>
void BasicDrum<Scalar>::setFilm (StickState& stick) const noexcept
{
    const auto waves = current->wavesUnderTip();
    const int former = stick.modes - stick.bodyModes;
    for (int i = 0; i < std::max (former, waves.count); ++i)
    {
        const auto& wave = waves.wave[static_cast<std::size_t> (i)];
        const auto k = static_cast<std::size_t> (stick.bodyModes + i);
        // Beyond the last wave everything is zero.
        const auto recursion =
            i < waves.count ? ModalRecursion::from (wave.frequency, wave.decay, current->interval()) : ModalRecursion{};
        if (i < former)
            recursion.carryOver ({ stick.keep[k], stick.spring[k], stick.drive[k] }, stick.position[k], stick.step[k]);
        else
            stick.position[k] = stick.step[k] = 0.0;
        stick.keep[k] = recursion.keep;
        stick.spring[k] = recursion.spring;
        stick.drive[k] = recursion.drive;
        stick.lossOfStep[k] = recursion.lossOfStep();
        // What opens the tip's contact dents the film.
        stick.at (StickContactKind::tip).ofStick[k] = -wave.shape;
        stick.at (StickContactKind::stretch).ofStick[k] = wave.shape;
    }
    stick.modes = stick.bodyModes + waves.count;
}

/** A rod that moves across itself is heard as a force on the air of twice the air that it displaces (a dipole: the displaced air
   and as much again that moves around the rod), which points along its motion, upwards. It is taken to sit half way between tip
   and hand, as far from the microphones in time as the head. */
template <typename Scalar>
void BasicDrum<Scalar>::hearStick (StickState& stick, const Blow& blow) const noexcept
{
    const auto& setup = current->setup();
    const auto& body = blow.isLaid ? setup.laidStick : setup.stick;
    const auto& air = setup.modes.air;
    if (air.isVacuum())
        return;
    const double outwards = blow.radius + 0.5 * (body.handPlace - body.tipPlace);
    const double x = outwards * std::cos (blow.angle), y = outwards * std::sin (blow.angle);
    const double rate = setup.sampleRate;
    for (std::size_t m = 0; m < setup.microphones.size(); ++m)
    {
        const auto& microphone = setup.microphones[m];
        const double up = microphone.z - stickHeight;
        const double distance = std::max (closestMicrophone, std::hypot (microphone.x - x, microphone.y - y, up));
        const double strength =
            microphone.signedGain() * air.density * up / distance / (2.0 * modal::units::twoPi * distance) * rate * rate;
        stick.near[m] = strength / distance;
        stick.far[m] = strength * rate / air.soundSpeed;
    }
}

/** How far these positions of the drum's modes press a contact, m. */
template <typename Scalar>
double BasicDrum<Scalar>::surfaceAt (int contact, const Scalar* values) const noexcept
{
    const auto& shape = stickShape[static_cast<std::size_t> (contact)];
    double sum = 0.0;
    for (std::size_t k = 0; k < static_cast<std::size_t> (view.modes); ++k)
        sum += static_cast<double> (shape[k]) * static_cast<double> (values[k]);
    return sum;
}

/** How far the force of each of a stick's contacts moves all contacts and the wires in one step. */
template <typename Scalar>
void BasicDrum<Scalar>::measureContacts (int slot) noexcept
{
    using Values = Eigen::Map<const Eigen::Array<Scalar, Eigen::Dynamic, 1>>;
    const auto contactAt = [&] (std::size_t j) -> StickContact&
    { return sticks[j / contactsPerStick].contact[j % contactsPerStick]; };
    const auto& stick = sticks[static_cast<std::size_t> (slot)];

    for (std::size_t c = 0; c < contactsPerStick; ++c)
    {
        const std::size_t j = static_cast<std::size_t> (slot) * contactsPerStick + c;
        auto& contact = contactAt (j);
        if (! contact.active)
            continue;
        Eigen::Map<Eigen::Array<Scalar, Eigen::Dynamic, 1>> moved (scratch.data(), view.modes);
        // How far one newton moves each mode in a step; the slip moves none of the drum's.
        if (! contact.isSlip)
            moved = Values (view.drive, view.modes) * Values (stickShape[j].data(), view.modes);
        for (std::size_t i = 0; i < maxStickContacts; ++i)
        {
            auto& other = contactAt (i);
            if (! sticks[i / contactsPerStick].active || ! other.active)
                continue;
            double mobility = contact.isSlip || other.isSlip
                                  ? 0.0
                                  : (moved * Values (stickShape[i].data(), view.modes)).template cast<double>().sum();
            if (i / contactsPerStick == static_cast<std::size_t> (slot))
                for (std::size_t k = 0; k < static_cast<std::size_t> (stick.modes); ++k)
                    mobility += stick.drive[k] * contact.ofStick[k] * other.ofStick[k];
            contact.mobility[i] = other.mobility[j] = mobility;
        }
        if (! contact.isSlip)
            current->contactsMovedBy (moved.data(), stickToWire[j].data());
    }
}

/** What a stick takes along, it takes out of the balance. */
template <typename Scalar>
void BasicDrum<Scalar>::removeStick (StickState& stick) noexcept
{
    if (stick.active && view.countsEnergy)
        flows.work -= stickEnergy (stick);
    stick = {};
}

template <typename Scalar>
void BasicDrum<Scalar>::retireSticks() noexcept
{
    for (std::size_t i = 0; i < maxSticks; ++i)
    {
        auto& stick = sticks[i];
        if (! stick.active)
            continue;
        if (stick.isWires)
        {
            if (stick.handle.isAway (stick.age, heldReach) && stick.at (StickContactKind::tip).force == 0.0)
                retireWires (stick);
            continue;
        }
        const auto &tip = stick.at (StickContactKind::tip), &shaft = stick.at (StickContactKind::shaft);
        const double rise = stick.rigidStepOfTip();
        // A stick that was laid on the drum leaves with its tip; its shaft may still lean on the hoop.
        const auto isClearBy = [&] (double reach)
        { return -tip.compression > reach && (! shaft.active || landed[i].isLaid || -shaft.compression > reach); };
        const bool isHeld = stick.handPush > 0.0;
        const bool leaves = rise > 0.0 && (stick.age >= stick.liftAfter || ! isHeld);
        const bool hasLanded = tip.samples > 0 || shaft.samples > 0;
        const bool isAway = leaves && isClearBy (hasLanded && ! isHeld ? bouncedReach : heldReach);
        if (! isAway && stick.age < longestStay / current->interval())
            continue;
        report = { tip.samples * current->interval(), tip.peakForce, shaft.peakForce,
                   rise / current->interval() / landed[i].speed, 0.0 };
        removeStick (stick);
    }
}

/** What the groups of a brush did is reported together, that of an earlier brush no more. */
template <typename Scalar>
void BasicDrum<Scalar>::retireWires (StickState& stick) noexcept
{
    const auto& tip = stick.at (StickContactKind::tip);
    if (stick.fan == fansLanded && tip.samples > 0)
    {
        fanTouch.first = fanTouch.count == 0 ? tip.touchedAt : std::min (fanTouch.first, tip.touchedAt);
        fanTouch.last = std::max (fanTouch.last, tip.touchedAt);
        fanTouch.longest = std::max (fanTouch.longest, tip.samples);
        ++fanTouch.count;
    }
    const double T = current->interval();
    if (stick.fan == fansLanded)
        report = { fanTouch.longest * T, view.wiresPeakForce, 0.0, 0.0, (fanTouch.last - fanTouch.first) * T };
    removeStick (stick);
}

template <typename Scalar>
double BasicDrum<Scalar>::energy() const noexcept
{
    double sum = ringingEnergy() + view.tension.store;
    for (const auto& stick : sticks)
        if (stick.active)
            sum += stickEnergy (stick);
    return sum;
}

template int BasicDrum<float>::freeSlot (bool) noexcept;
template void BasicDrum<float>::land (const Blow&) noexcept;
template void BasicDrum<float>::moveBrushes() noexcept;
template void BasicDrum<float>::endSweeps() noexcept;
template void BasicDrum<float>::shapeContacts (int) noexcept;
template void BasicDrum<float>::hearStick (StickState&, const Blow&) const noexcept;
template void BasicDrum<float>::setFilm (StickState&) const noexcept;
template double BasicDrum<float>::surfaceAt (int, const float*) const noexcept;
template void BasicDrum<float>::measureContacts (int) noexcept;
template void BasicDrum<float>::retireSticks() noexcept;
template double BasicDrum<float>::energy() const noexcept;
template int BasicDrum<double>::freeSlot (bool) noexcept;
template void BasicDrum<double>::land (const Blow&) noexcept;
template void BasicDrum<double>::moveBrushes() noexcept;
template void BasicDrum<double>::endSweeps() noexcept;
template void BasicDrum<double>::shapeContacts (int) noexcept;
template void BasicDrum<double>::hearStick (StickState&, const Blow&) const noexcept;
template void BasicDrum<double>::setFilm (StickState&) const noexcept;
template double BasicDrum<double>::surfaceAt (int, const double*) const noexcept;
template void BasicDrum<double>::measureContacts (int) noexcept;
template void BasicDrum<double>::retireSticks() noexcept;
template double BasicDrum<double>::energy() const noexcept;

} // namespace engine
