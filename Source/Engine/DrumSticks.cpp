// Sticks that come, push and leave. What they do in between is in KernelSticks.h.

#include "Drum.h"

#include "Bank.h"
#include "ContactLaw.h"

#include "Modal/Units.h"

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

double storedIn (const StickState& stick, const StickContact& contact, double compression) noexcept
{
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

template <typename Scalar>
int BasicDrum<Scalar>::freeSlot() noexcept
{
    int oldest = 0;
    for (int i = 0; i < maxSticks; ++i)
    {
        const auto& stick = sticks[static_cast<std::size_t> (i)];
        if (! stick.active)
            return i;
        if (stick.age > sticks[static_cast<std::size_t> (oldest)].age)
            oldest = i;
    }
    return oldest;
}

template <typename Scalar>
void BasicDrum<Scalar>::land (const Blow& blow) noexcept
{
    silent = false;
    const int slot = freeSlot();
    const auto index = static_cast<std::size_t> (slot);
    auto& stick = sticks[index];
    removeStick (stick);

    landed[index] = blow;
    setStick (stick, blow);
    setFilm (stick);
    hearStick (stick, blow);
    shapeContacts (slot);
    upperBand.place (slot, blow, *current);

    const double distance = blow.hoopDistance;
    const double tipSpeed = blow.isLaid ? 0.0 : blow.speed;
    const double shaftSpeed = blow.isLaid ? blow.speed : blow.speed * (1.0 - distance / blow.swingLength);
    const double gaps[contactsPerStick] = { std::max (0.0, -blow.hoopLag * tipSpeed), 0.0,
                                            std::max (0.0, blow.hoopLag * shaftSpeed) };
    for (int c = 0; c < contactsPerStick; ++c)
    {
        auto& contact = stick.contact[static_cast<std::size_t> (c)];
        const int at = slot * contactsPerStick + c;
        const double surface = surfaceAt (at, position.data());
        const double approach = [&]
        {
            double sum = surfaceAt (at, step.data());
            for (std::size_t k = 0; k < static_cast<std::size_t> (stick.modes); ++k)
                sum += contact.ofStick[k] * stick.step[k];
            return sum;
        }();
        // The stick arrives where head and hoop are now, or in a moment; none comes from inside. The stretch is as the film is.
        const bool isStretch = c == static_cast<int> (StickContactKind::stretch);
        contact.compression = isStretch ? surface : std::min (-gaps[c], approach);
        contact.offset = contact.compression - surface;
        contact.compressionBefore = contact.compression - approach;
    }
    if (view.countsEnergy)
        flows.work += stickEnergy (stick);
    stick.active = true;
    measureContacts (slot);
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
        const auto recursion = mode.frequency > 0.0 ? ModalRecursion::from (mode.frequency, mode.decay, T) : ModalRecursion::free (T);
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
    const auto to = [&] (StickContactKind kind)
    { return stickShape[static_cast<std::size_t> (slot * contactsPerStick) + static_cast<std::size_t> (kind)].data(); };
    current->headShape (blow.radius, blow.angle, to (StickContactKind::tip));
    current->stretchShape (blow.radius, blow.angle, to (StickContactKind::stretch));
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
    for (int i = 0; i < waves.count; ++i)
    {
        const auto& wave = waves.wave[static_cast<std::size_t> (i)];
        const auto k = static_cast<std::size_t> (stick.bodyModes + i);
        const auto recursion = ModalRecursion::from (wave.frequency, wave.decay, current->interval());
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

/** A rod that moves across itself is heard as a force on the air of twice the air that it displaces (a dipole: the displaced air and as much
    again that moves around the rod), which points along its motion, upwards. It is taken to sit half way between tip and hand, as far from the
    microphones in time as the head. */
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
        const double strength = microphone.signedGain() * air.density * up / distance / (2.0 * modal::units::twoPi * distance) * rate * rate;
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
        // How far one newton moves each mode in a step.
        Eigen::Map<Eigen::Array<Scalar, Eigen::Dynamic, 1>> moved (scratch.data(), view.modes);
        moved = Values (view.drive, view.modes) * Values (stickShape[j].data(), view.modes);
        for (std::size_t i = 0; i < maxStickContacts; ++i)
        {
            auto& other = contactAt (i);
            if (! sticks[i / contactsPerStick].active || ! other.active)
                continue;
            double mobility = (moved * Values (stickShape[i].data(), view.modes)).template cast<double>().sum();
            if (i / contactsPerStick == static_cast<std::size_t> (slot))
                for (std::size_t k = 0; k < static_cast<std::size_t> (stick.modes); ++k)
                    mobility += stick.drive[k] * contact.ofStick[k] * other.ofStick[k];
            contact.mobility[i] = other.mobility[j] = mobility;
        }
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
                   rise / current->interval() / landed[i].speed };
        removeStick (stick);
    }
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

template int BasicDrum<float>::freeSlot() noexcept;
template void BasicDrum<float>::land (const Blow&) noexcept;
template void BasicDrum<float>::shapeContacts (int) noexcept;
template void BasicDrum<float>::hearStick (StickState&, const Blow&) const noexcept;
template void BasicDrum<float>::setFilm (StickState&) const noexcept;
template double BasicDrum<float>::surfaceAt (int, const float*) const noexcept;
template void BasicDrum<float>::measureContacts (int) noexcept;
template void BasicDrum<float>::retireSticks() noexcept;
template double BasicDrum<float>::energy() const noexcept;
template int BasicDrum<double>::freeSlot() noexcept;
template void BasicDrum<double>::land (const Blow&) noexcept;
template void BasicDrum<double>::shapeContacts (int) noexcept;
template void BasicDrum<double>::hearStick (StickState&, const Blow&) const noexcept;
template void BasicDrum<double>::setFilm (StickState&) const noexcept;
template double BasicDrum<double>::surfaceAt (int, const double*) const noexcept;
template void BasicDrum<double>::measureContacts (int) noexcept;
template void BasicDrum<double>::retireSticks() noexcept;
template double BasicDrum<double>::energy() const noexcept;

} // namespace engine
