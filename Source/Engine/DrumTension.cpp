// Decides when the rise of tension by large strikes (KernelTension.h) is computed, and prepares its state.

#include "Drum.h"

#include <Eigen/Core>

#include <algorithm>

namespace engine
{

template <typename Scalar>
void BasicDrum<Scalar>::resetTension() noexcept
{
    auto& tension = view.tension;
    tension.isActive = false;
    tension.store = 0.0;
    for (int head = 0; head < 2; ++head)
        tension.stretch[head] = tension.byContacts[head] = tension.force[head] = 0.0;
}

/** Computes the stretch for the current modes and puts its energy into the store. */
template <typename Scalar>
void BasicDrum<Scalar>::startTension() noexcept
{
    auto& tension = view.tension;
    if (! tension.isActive)
        return;
    tension.store = 0.0;
    for (int head = 0; head < 2; ++head)
    {
        double stretch = 0.0;
        for (std::size_t k = 0; k < static_cast<std::size_t> (view.modes); ++k)
            stretch += static_cast<double> (tension.gradient[head][k]) * static_cast<double> (position[k]) *
                       static_cast<double> (position[k] - step[k]);
        tension.stretch[head] = stretch;
        tension.byContacts[head] = 0.0;
        tension.store += 0.25 * tension.rise[head] * stretch * stretch;
    }
}

/** Switches the rise of tension on before it matters and off when it no longer does. Called when a stroke lands and every
   `tidyEvery` samples, so that the sound does not depend on the block size. The store starts empty and its rest is dropped at the
   end: neither adds energy. */
template <typename Scalar>
void BasicDrum<Scalar>::switchTension() noexcept
{
    auto& tension = view.tension;
    double twiceSticksEnergy = 0.0;
    for (const auto& stick : sticks)
        for (std::size_t k = 0; stick.active && k < static_cast<std::size_t> (stick.modes); ++k)
            twiceSticksEnergy += stick.step[k] * stick.step[k] / stick.drive[k];
    // Without a stick nothing stretches the heads any further.
    if (! tension.isActive && twiceSticksEnergy == 0.0)
        return;

    using Values = Eigen::Map<const Eigen::Array<Scalar, Eigen::Dynamic, 1>>;
    std::array<double, 2> stretch{};
    for (std::size_t head = 0; head < 2; ++head)
        stretch[head] = static_cast<double> (
            (Values (tension.gradient[head], view.modes) * Values (position.data(), view.modes).square()).sum());
    double share = 0.0;
    for (std::size_t head = 0; head < 2; ++head)
        if (tension.rise[head] > 0.0 && tension.base[head] > 0.0)
            // The present stretch plus the most that the sticks' energy can add.
            share = std::max (share, tension.rise[head] / tension.base[head] *
                                         (stretch[head] + twiceSticksEnergy / tension.base[head]));

    if (! tension.isActive && share > tension.least)
    {
        tension.isActive = true;
        startTension();
        tension.store = 0.0;
    }
    else if (tension.isActive && share < 0.5 * tension.least)
    {
        if (view.countsEnergy)
            flows.modalLoss += tension.store;
        resetTension();
    }
}

template void BasicDrum<float>::resetTension() noexcept;
template void BasicDrum<double>::resetTension() noexcept;
template void BasicDrum<float>::startTension() noexcept;
template void BasicDrum<double>::startTension() noexcept;
template void BasicDrum<float>::switchTension() noexcept;
template void BasicDrum<double>::switchTension() noexcept;

} // namespace engine
