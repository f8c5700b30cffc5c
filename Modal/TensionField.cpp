#include "TensionField.h"

#include "Units.h"

#include <cmath>
#include <numeric>

namespace modal
{

namespace
{

constexpr double kappa = (3.0 - Film::poissonsRatio) / (1.0 + Film::poissonsRatio); // Kolosov's constant, plane stress

/** Radial stress at the rim for a unit coefficient of r^(p+2), the sideways condition met. */
constexpr double rimStress (int p) noexcept
{
    return kappa * (p - 1) + p + 1;
}

} // namespace

FieldAt fieldOfHarmonic (int p, double rho) noexcept
{
    // Airy function (A r^p + B r^(p+2)) cos pθ; no sideways motion at the rim makes A = −B (κ + p + 1) a² / p.
    const double inner = p == 1 ? 0.0 : (kappa + p + 1) * (p - 1) * std::pow (rho, p - 2);
    const double outer = std::pow (rho, p);
    const double scale = 1.0 / rimStress (p);
    return { scale * (inner + (2 - p) * (1 + p) * outer), scale * (-inner + (p + 2) * (p + 1) * outer),
             scale * (-inner + p * (p + 1) * outer) };
}

std::vector<TensionHarmonic> harmonicsOf (const std::vector<double>& lugTensions)
{
    const auto lugs = static_cast<int> (lugTensions.size());
    const double mean = std::accumulate (lugTensions.begin(), lugTensions.end(), 0.0) / lugs;
    std::vector<TensionHarmonic> harmonics;

    for (int p = 1; 2 * p <= lugs; ++p)
    {
        TensionHarmonic harmonic{ p, 0.0, 0.0 };
        const double weight = (2 * p == lugs ? 1.0 : 2.0) / lugs; // at half their number the lugs see only the cosine

        for (int k = 0; k < lugs; ++k)
        {
            const double angle = units::twoPi * p * k / lugs;
            const double deviation = lugTensions[static_cast<std::size_t> (k)] - mean;
            harmonic.cosine += weight * deviation * std::cos (angle);
            harmonic.sine += weight * deviation * std::sin (angle);
        }

        harmonics.push_back (harmonic);
    }

    return harmonics;
}

double rimTension (int p, double displacement, const HeadConstruction& head, double radius) noexcept
{
    const double strain = displacement / radius;
    const double stiffness = Film::youngsModulus * head.loadBearingThickness();

    return p == 0 ? stiffness / (1.0 - Film::poissonsRatio) * strain
                  : stiffness / (2.0 * (1.0 + Film::poissonsRatio)) * rimStress (p) / kappa * strain;
}

} // namespace modal
