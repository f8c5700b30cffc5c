#include "ModalRecursion.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace engine
{
namespace
{

/** Rotation of a mode in one sample: q⁻ = (q·cosine + p·sine)/shrink, with p in quadrature to q. */
struct Turn
{
    double shrink, cosine, sine;

    explicit Turn (const ModalRecursion& r) noexcept
        : shrink (std::sqrt (r.keep)), cosine ((1.0 + r.keep - r.spring) / (2.0 * shrink)),
          sine (std::sqrt (std::max (0.0, 1.0 - cosine * cosine)))
    {
    }
};

} // namespace

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

void ModalRecursion::carryOver (const ModalRecursion& former, double& position, double& step) const noexcept
{
    const double wanted = former.energy (position, step);
    const Turn then (former), now (*this);
    if (! (wanted > 0.0) || drive <= 0.0 || then.sine <= 0.0)
    {
        position = step = 0.0;
        return;
    }
    const double quarter = (then.shrink * (position - step) - position * then.cosine) / then.sine;
    step = position - (position * now.cosine + quarter * now.sine) / now.shrink;
    const double found = energy (position, step);
    const double share = found > 0.0 ? std::sqrt (wanted / found) : 0.0;
    position *= share;
    step *= share;
}

} // namespace engine
