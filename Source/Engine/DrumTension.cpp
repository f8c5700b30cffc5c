// When large strikes raise the heads' tension: what KernelTension.h does in the loop, and when it is worth doing.

#include "Drum.h"

#include <Eigen/Core>

#include <algorithm>

namespace engine
{

template <typename Scalar>
void BasicDrum<Scalar>::restTension() noexcept
{
    auto& tension = view.tension;
    tension.isActive = false;
    tension.store = 0.0;
    for (int head = 0; head < 2; ++head)
        tension.stretch[head] = tension.byContacts[head] = tension.force[head] = 0.0;
}

/** The stretch as the modes are now, its energy in the store. */
template <typename Scalar>
void BasicDrum<Scalar>::meetTension() noexcept
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

/** Begins to raise the tension before it matters, and ends once it no longer does. Asked when a stroke lands and every
   `tidyEvery` samples, so that the sound does not depend on how it is cut into blocks. The store begins empty and what is in it
   at the end is lost: neither adds energy. */
template <typename Scalar>
void BasicDrum<Scalar>::watchTension() noexcept
{
    auto& tension = view.tension;
    double twiceStrikersEnergy = 0.0;
    for (const auto& striker : strikers)
        if (striker.active)
            twiceStrikersEnergy += striker.step * striker.step / striker.drive;
    // Without a stick nothing stretches the heads any further.
    if (! tension.isActive && twiceStrikersEnergy == 0.0)
        return;

    using Values = Eigen::Map<const Eigen::Array<Scalar, Eigen::Dynamic, 1>>;
    std::array<double, 2> stretch{};
    for (std::size_t head = 0; head < 2; ++head)
        stretch[head] = static_cast<double> (
            (Values (tension.gradient[head], view.modes) * Values (position.data(), view.modes).square()).sum());
    double share = 0.0;
    for (std::size_t head = 0; head < 2; ++head)
        if (tension.rise[head] > 0.0 && tension.base[head] > 0.0)
            // By what it is stretched, and at most what the sticks' energy can add.
            share = std::max (share, tension.rise[head] / tension.base[head] *
                                         (stretch[head] + twiceStrikersEnergy / tension.base[head]));

    if (! tension.isActive && share > tension.least)
    {
        tension.isActive = true;
        meetTension();
        tension.store = 0.0;
    }
    else if (tension.isActive && share < 0.5 * tension.least)
    {
        if (view.countsEnergy)
            flows.modalLoss += tension.store;
        restTension();
    }
}

template void BasicDrum<float>::restTension() noexcept;
template void BasicDrum<double>::restTension() noexcept;
template void BasicDrum<float>::meetTension() noexcept;
template void BasicDrum<double>::meetTension() noexcept;
template void BasicDrum<float>::watchTension() noexcept;
template void BasicDrum<double>::watchTension() noexcept;

} // namespace engine
