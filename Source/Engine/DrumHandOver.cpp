// Switches a ringing drum to another model: StateTransfer.cpp transfers the modes; wires, sticks and stretch follow here.

#include "Drum.h"

#include <algorithm>
#include <cmath>

namespace engine
{

template <typename Scalar>
std::shared_ptr<const BasicDrumModel<Scalar>> BasicDrum<Scalar>::setModel (std::shared_ptr<const Model> next) noexcept
{
    if (next == nullptr || next->setup().sampleRate != current->setup().sampleRate)
        return next;
    if (silent)
    {
        std::swap (current, next);
        connect();
        resetWires();
        return next;
    }

    const double energyBefore = ringingEnergy(), stretchBefore = view.tension.store;
    next->transferState (*current, { position.data(), step.data() }, { takenPosition.data(), takenStep.data() }, field.data());
    std::swap (current, next);
    position.swap (takenPosition);
    step.swap (takenStep);
    connect();
    std::fill (push.begin(), push.end(), Scalar (0));

    // The positions of the wires follow from the modes; their forces are solved in the next sample.
    resetWires();
    current->compressionsAt (position.data(), compression.data());
    for (std::size_t k = 0; k < static_cast<std::size_t> (view.modes); ++k)
        trial[k] = position[k] - step[k];
    current->compressionsAt (trial.data(), compressionBefore.data());
    limitRinging (energyBefore);
    startTension();
    view.tension.store = std::min (view.tension.store, stretchBefore);

    for (int slot = 0; slot < maxSticks; ++slot)
    {
        auto& stick = sticks[static_cast<std::size_t> (slot)];
        if (! stick.active)
            continue;
        shapeContacts (slot);
        upperBand.place (slot, landed[static_cast<std::size_t> (slot)], *current);
        if (! stick.isWires)
            hearStick (stick, landed[static_cast<std::size_t> (slot)]);
        setFilm (stick);
        // Contacts stay as far closed as they are.
        for (int c = 0; c < contactsPerStick; ++c)
        {
            auto& contact = stick.contact[static_cast<std::size_t> (c)];
            contact.offset = contact.compression - contact.imposed - contact.pressedBy (stick.position) -
                             surfaceAt (slot * contactsPerStick + c, position.data());
        }
    }
    for (int slot = 0; slot < maxSticks; ++slot)
        if (sticks[static_cast<std::size_t> (slot)].active)
            measureContacts (slot);
    smoothsStep = true;
    return next;
}

/** Of modes and wires, without sticks and stretch. */
template <typename Scalar>
double BasicDrum<Scalar>::ringingEnergy() const noexcept
{
    return current->modalEnergy (position.data(), step.data()) +
           current->contactEnergy (compression.data(), compressionBefore.data());
}

/** Scales the state towards rest until modes and wires have at most `most` J. Needed when the new model's wires lie differently
   and would start pressed into the head. */
template <typename Scalar>
void BasicDrum<Scalar>::limitRinging (double most) noexcept
{
    if (ringingEnergy() <= most)
        return;
    const double modes = current->modalEnergy (position.data(), step.data());
    const auto count = static_cast<std::size_t> (current->contacts());
    Scalar* const now = scratch.data();
    Scalar* const before = now + maxContacts;
    const auto contactsAt = [&] (double share)
    {
        for (std::size_t i = 0; i < count; ++i)
        {
            const auto rest = view.restCompression[i], part = static_cast<Scalar> (share);
            now[i] = rest + part * (compression[i] - rest);
            before[i] = rest + part * (compressionBefore[i] - rest);
        }
        return current->contactEnergy (now, before);
    };
    // Energy grows with the share and is zero at zero.
    double low = 0.0, high = 1.0;
    for (int i = 0; i < 20; ++i)
    {
        const double share = 0.5 * (low + high);
        (share * share * modes + contactsAt (share) <= most ? low : high) = share;
    }
    contactsAt (low);
    std::copy_n (now, count, compression.begin());
    std::copy_n (before, count, compressionBefore.begin());
    for (auto* array : { &position, &step })
        for (auto& value : *array)
            value *= static_cast<Scalar> (low);
}

template std::shared_ptr<const BasicDrumModel<float>>
    BasicDrum<float>::setModel (std::shared_ptr<const BasicDrumModel<float>>) noexcept;
template std::shared_ptr<const BasicDrumModel<double>>
    BasicDrum<double>::setModel (std::shared_ptr<const BasicDrumModel<double>>) noexcept;
template double BasicDrum<float>::ringingEnergy() const noexcept;
template double BasicDrum<double>::ringingEnergy() const noexcept;
template void BasicDrum<float>::limitRinging (double) noexcept;
template void BasicDrum<double>::limitRinging (double) noexcept;

} // namespace engine
