#include "LinearStrike.h"

#include "Modal/Units.h"

#include <algorithm>
#include <cmath>
#include <complex>
#include <limits>

namespace engine
{
namespace
{
using Complex = std::complex<double>;
using modal::units::pi;
using modal::units::twoPi;

/** In a vacuum nothing would be heard; a textbook's drum is then heard as if air of this density touched the microphone alone. */
constexpr double densityInVacuum = 1.2; // kg/m³

/** Largest order of a basis. */
int highestOrder (const std::vector<modal::BasisFunction>& basis)
{
    int highest = 0;

    for (const auto& function : basis)
        highest = std::max (highest, function.m);

    return highest;
}

/** Sums over one ring of radius `r` of cos(mθ)/R and sin(mθ)/R, R the distance to the microphone; row m, column 0 or 1. */
Eigen::ArrayX2d ringSums (double r, double radius, const NearMicrophone& microphone, int orders, int angles)
{
    Eigen::ArrayX2d sums = Eigen::ArrayX2d::Zero (orders, 2);

    for (int j = 0; j < angles; ++j)
    {
        const auto theta = twoPi * (j + 0.5) / angles;
        const auto direct = std::polar (r, theta) - std::polar (microphone.positionShare * radius, microphone.angle);
        const auto inverse = 1.0 / std::hypot (std::abs (direct), microphone.height);
        const auto step = std::polar (1.0, theta);
        Complex turn = inverse;

        for (int m = 0; m < orders; ++m, turn *= step)
        {
            sums (m, 0) += turn.real();
            sums (m, 1) += turn.imag();
        }
    }

    return sums;
}

/** ρ/2π ∫ φ/R dA of each function of the basis, seen from the microphone. */
Eigen::VectorXd pressureOfBasis (const modal::DrumModes& modes, const NearMicrophone& microphone)
{
    // Midpoints in r² and θ: equal areas, and R never vanishes since the microphone is above the head. The ring has more points
    // than twice the highest order, so that no order is mistaken for a lower one.
    constexpr int radii = 96;
    const auto orders = highestOrder (modes.basis) + 1;
    const auto angles = 128 + 2 * orders;

    const auto a = modes.radius;
    const auto area = pi * a * a / (radii * angles);
    const auto density = modes.air.isVacuum() ? densityInVacuum : modes.air.density;

    Eigen::VectorXd sums = Eigen::VectorXd::Zero (static_cast<Eigen::Index> (modes.basis.size()));

    for (int i = 0; i < radii; ++i)
    {
        const auto r = a * std::sqrt ((i + 0.5) / radii);
        const auto ring = ringSums (r, a, microphone, orders, angles);

        for (Eigen::Index k = 0; k < sums.size(); ++k)
        {
            const auto& function = modes.basis[static_cast<std::size_t> (k)];
            const auto isSine = function.parity == modal::Parity::sine;

            // Along a ring a function is its crest times the cosine or sine.
            const auto crest = function.at (r, isSine ? pi / (2.0 * function.m) : 0.0, a);
            sums[k] += crest * ring (function.m, isSine ? 1 : 0) * area;
        }
    }

    return sums * (density / twoPi);
}

/** -α + iω_d. */
Complex rootOf (const modal::Mode& mode, double pulseRate)
{
    // A mode that is damped beyond oscillation does not occur in a drum; the bound keeps the formula whole if one is asked for.
    const auto omega = mode.angularFrequency();
    const auto alpha = std::min (mode.decay.total(), 0.999 * omega);
    const Complex root (-alpha, std::sqrt (omega * omega - alpha * alpha));

    // A mode without loss exactly at the pulse's own rate would divide nothing by nothing. A millionth beside it the quotient is
    // right to as many digits as the shift.
    constexpr double shift = 1.0e-6;
    const auto isAtPulse = std::abs (root - Complex (0.0, pulseRate)) < shift * pulseRate;
    return isAtPulse ? root + Complex (0.0, 2.0 * shift * pulseRate) : root;
}

} // namespace

LinearStrike::LinearStrike (const modal::DrumModes& modes, const StrikePulse& pulse, const NearMicrophone& microphone,
                            double sampleRate)
    : samplePeriod (1.0 / sampleRate), pulseRate (pi / pulse.contactTime), contactTime (pulse.contactTime),
      peakForce (0.5 * pi * pulse.momentum / pulse.contactTime)
{
    const auto count = modes.size();
    const Eigen::VectorXd heard = modes.batter.transpose() * pressureOfBasis (modes, microphone);
    const Eigen::VectorXd struck = modes.batterShapeAt (pulse.positionShare * modes.radius, pulse.angle);

    lambda.resize (count);
    answer.resize (count);
    weight.resize (count);
    directWeight = heard.dot (struck);

    for (int k = 0; k < count; ++k)
    {
        const auto root = rootOf (modes.modes[static_cast<std::size_t> (k)], pulseRate);

        lambda[k] = root;
        answer[k] = 1.0 / (root * root + pulseRate * pulseRate);

        // With z = ∫ e^{λ(t-s)} F(s) ds: q = Im z / ω_d and q'' = Im (λ² z) / ω_d + F.
        weight[k] = heard[k] * struck[k] * root * root / root.imag();
    }
}

double LinearStrike::pressureDuringContact (double time) const
{
    const auto s = std::sin (pulseRate * time), c = std::cos (pulseRate * time);
    const Modes z = peakForce * answer * (pulseRate * (lambda * time).exp() - lambda * s - pulseRate * c);
    return (weight * z).imag().sum() + directWeight * peakForce * s;
}

void LinearStrike::beginFreeDecay (double time)
{
    const Modes atRelease = peakForce * answer * pulseRate * ((lambda * contactTime).exp() + 1.0);
    state = weight * atRelease * (lambda * (time - contactTime)).exp();
    rotation = (lambda * samplePeriod).exp();
    isFree = true;
}

double LinearStrike::largestStillToCome() const
{
    return isFree ? state.abs().sum() : std::numeric_limits<double>::infinity();
}

void LinearStrike::process (double* pressure, int count)
{
    for (int i = 0; i < count; ++i, ++sampleIndex)
    {
        const auto time = static_cast<double> (sampleIndex) * samplePeriod;

        if (time < contactTime)
        {
            pressure[i] = pressureDuringContact (time);
            continue;
        }

        if (! isFree)
            beginFreeDecay (time);

        pressure[i] = state.imag().sum();
        state *= rotation;
    }
}

} // namespace engine
