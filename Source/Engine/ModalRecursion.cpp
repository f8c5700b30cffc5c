#include "ModalRecursion.h"

#include <cmath>
#include <numbers>

namespace engine
{

ModalRecursion ModalRecursion::from (double frequency, double decay, double interval) noexcept
{
    const double omega = 2.0 * std::numbers::pi * frequency;
    const double shrink = std::exp (-decay * interval);
    const double sine = std::sin (0.5 * omega * interval);
    const double lost = -std::expm1 (-decay * interval);

    ModalRecursion r;
    r.keep = shrink * shrink;
    // 1 - 2·shrink·cos ωT + shrink², without the cancellation.
    r.spring = lost * lost + 4.0 * shrink * sine * sine;
    r.drive = r.spring / (omega * omega + decay * decay);
    return r;
}

double ModalRecursion::energy (double position, double step) const noexcept
{
    if (drive <= 0.0)
        return 0.0;
    return (1.0 + keep) / (4.0 * drive) * step * step + spring / (2.0 * drive) * position * (position - step);
}

} // namespace engine
