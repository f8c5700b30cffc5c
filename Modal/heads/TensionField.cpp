#include "TensionField.h"

#include "Modal/Units.h"

#include <cmath>
#include <numeric>

namespace modal
{

namespace
{

constexpr double kappa = (3.0 - Film::poissonsRatio) / (1.0 + Film::poissonsRatio); // Kolosov's constant, plane stress

/** For a rim that does not move sideways: amplitude of the inner part, that of the outer part being 1. */
constexpr double innerOverOuter (int p) noexcept
{
    return (kappa + p + 1) * (p - 1);
}

/** Radial tension at the rim of such a field. */
constexpr double rimOverOuter (int p) noexcept
{
    return innerOverOuter (p) + (2 - p) * (1 + p);
}

} // namespace

std::vector<TensionHarmonic> harmonicsOf (const std::vector<double>& lugTensions)
{
    const auto lugs = static_cast<int> (lugTensions.size());
    const double mean = std::accumulate (lugTensions.begin(), lugTensions.end(), 0.0) / lugs;
    std::vector<TensionHarmonic> harmonics;

    for (int p = 1; 2 * p <= lugs; ++p)
    {
        TensionHarmonic harmonic{ .p = p };
        // At half their number the lugs see only the cosine, and see it twice.
        const double weight = (2 * p == lugs ? 1.0 : 2.0) / (lugs * rimOverOuter (p));

        for (int k = 0; k < lugs; ++k)
        {
            const double angle = units::twoPi * p * k / lugs;
            const double deviation = weight * (lugTensions[static_cast<std::size_t> (k)] - mean);
            harmonic.outer.cosine += deviation * std::cos (angle);
            harmonic.outer.sine += deviation * std::sin (angle);
        }

        harmonic.inner = { innerOverOuter (p) * harmonic.outer.cosine, innerOverOuter (p) * harmonic.outer.sine };
        harmonics.push_back (harmonic);
    }

    return harmonics;
}

double rimTension (int p, double displacement, const HeadConstruction& head, double radius) noexcept
{
    const double strain = displacement / radius;
    const double stiffness = Film::youngsModulus * head.loadBearingThickness();

    return p == 0 ? stiffness / (1.0 - Film::poissonsRatio) * strain
                  : stiffness / (2.0 * (1.0 + Film::poissonsRatio)) * rimOverOuter (p) / kappa * strain;
}

} // namespace modal
