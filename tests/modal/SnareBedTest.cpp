#include "tests/Catch.h"

#include "Modal/Units.h"
#include "Modal/hardware/SnareBed.h"

#include <cmath>

using modal::units::pi;

namespace
{

constexpr double radius = 0.1778, depth = 1.5e-3, span = 0.12;

/** The same film by separation of variables: Σ aₘ (r/R)ᵐ cos mφ, whose coefficients are the edge's Fourier series (e.g. Kreyszig,
    Advanced Engineering Mathematics, section 12.10). The cosine of the dip is integrated in closed form. */
double bySeries (double x, double y)
{
    const double half = 0.5 * span / radius, share = std::hypot (x, y) / radius, angle = std::atan2 (y, x);
    const double k = pi / half;
    double sum = -depth * half / pi;
    for (int m = 2; m < 400; m += 2)
    {
        const double a = 2.0 * depth / pi * std::sin (m * half) * k * k / (m * (m * m - k * k));
        sum += a * std::pow (share, m) * std::cos (m * angle);
    }
    return sum;
}

} // namespace

TEST_CASE ("A head over snare beds takes the shape that Laplace's equation gives")
{
    const modal::SnareBed bed (radius, depth, span);
    for (const double along : { 0.0, 0.3, 0.6, 0.86, 0.94 })
        for (const double across : { 0.0, 0.1, 0.25 })
        {
            CAPTURE (along, across);
            CHECK (bed.height (along * radius, across * radius) ==
                   Approx (bySeries (along * radius, across * radius)).margin (1.0e-5 * depth));
        }
}

TEST_CASE ("The centre of a head is at the mean height of its edge")
{
    // Mean value theorem of harmonic functions: two raised cosines have the area of half their height and length.
    CHECK (modal::SnareBed (radius, depth, span).height (0.0, 0.0) == Approx (-depth * span / (2.0 * pi * radius)));
}
