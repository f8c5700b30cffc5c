#include "LocalStretch.h"

#include "Head.h"
#include "Modal/Units.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace modal
{
namespace
{

constexpr int insideElements = 10, outsideElements = 90;

/** Nodes along the radius: even steps under the patch, even ratios outside. */
std::vector<double> nodesOf (const DentedFilm& film)
{
    std::vector<double> nodes;
    for (int i = 0; i < insideElements; ++i)
        nodes.push_back (film.patchRadius * i / insideElements);
    const double ratio = film.ringRadius / film.patchRadius;
    for (int i = 0; i <= outsideElements; ++i)
        nodes.push_back (film.patchRadius * std::pow (ratio, static_cast<double> (i) / outsideElements));
    return nodes;
}

/** Slope s with (stiffness + D·s²/2)·s = pull, a cubic with one root, by Newton's method from above. */
double slopeFor (double pull, double stiffness, double D)
{
    double s = std::cbrt (2.0 * pull / D) + (stiffness > 0.0 ? 0.0 : std::sqrt (-2.0 * stiffness / D));
    for (int i = 0; i < 60; ++i)
    {
        const double next = s - ((stiffness + 0.5 * D * s * s) * s - pull) / (stiffness + 1.5 * D * s * s);
        if (std::abs (next - s) <= 1.0e-14 * s)
            break;
        s = next;
    }
    return s;
}

} // namespace

double LocalStretch::force (double x) const noexcept
{
    const double cube = x * x * x, ratio = x / knee;
    return hard * cube + (soft - hard) * cube / (1.0 + ratio * ratio);
}

double LocalStretch::energy (double x) const noexcept
{
    const double square = x * x, kneeSquare = knee * knee;
    return 0.25 * hard * square * square + 0.5 * (soft - hard) * kneeSquare * (square - kneeSquare * std::log1p (square / kneeSquare));
}

double DentedFilm::deflection (double force) const
{
    constexpr double nu = Film::poissonsRatio;
    const double D = stretchStiffness / (1.0 - nu * nu);
    const auto r = nodesOf (*this);
    const auto elements = r.size() - 1;
    std::vector<double> u (r.size(), 0.0), slope (elements, 0.0);

    // Newton's method for the motion in the plane, u; the slope of each element follows from the balance of forces across it.
    for (int turn = 0; turn < 100; ++turn)
    {
        std::vector<double> lower (r.size(), 0.0), diagonal (r.size(), 0.0), right (r.size(), 0.0);
        for (std::size_t e = 0; e < elements; ++e)
        {
            const double dr = r[e + 1] - r[e], middle = 0.5 * (r[e] + r[e + 1]);
            const double radial = (u[e + 1] - u[e]) / dr, around = 0.5 * (u[e] + u[e + 1]) / middle;
            const double share = std::min (1.0, std::pow (middle / patchRadius, 2));
            const double pull = force * share / (units::twoPi * middle);
            const double stiffness = tension + D * (radial + nu * around);
            const double s = slope[e] = slopeFor (pull, stiffness, D);
            const double stretched = radial + 0.5 * s * s;
            const double alongRadius = D * (stretched + nu * around), alongRing = D * (around + nu * stretched);
            // How the slope answers a strain, and so the forces in the plane.
            const double turned = -D * s * s / (stiffness + 1.5 * D * s * s);
            const double rr = D * (1.0 + turned), rt = nu * rr, tt = D * (1.0 + nu * nu * turned);
            const double weight = middle * dr;
            const std::array<double, 2> b{ -1.0 / dr, 1.0 / dr };
            const double c = 0.5 / middle;
            for (std::size_t i = 0; i < 2; ++i)
            {
                right[e + i] -= weight * (b[i] * alongRadius + c * alongRing);
                diagonal[e + i] += weight * (b[i] * b[i] * rr + 2.0 * b[i] * c * rt + c * c * tt);
            }
            lower[e + 1] += weight * (b[0] * b[1] * rr + c * c * tt); // (b[0] + b[1])·c·rt is zero
        }
        // The film outside the ring goes on without end.
        const double outside = stretchStiffness / (1.0 + nu);
        right.back() -= outside * u.back();
        diagonal.back() += outside;

        // The middle stays where it is; the rest by elimination.
        for (std::size_t i = 2; i < r.size(); ++i)
        {
            const double factor = lower[i] / diagonal[i - 1];
            diagonal[i] -= factor * lower[i];
            right[i] -= factor * right[i - 1];
        }
        double change = 0.0, after = 0.0;
        for (std::size_t i = r.size() - 1; i > 0; --i)
        {
            const double next = (right[i] - (i + 1 < r.size() ? lower[i + 1] * after : 0.0)) / diagonal[i];
            u[i] += next;
            change = std::max (change, std::abs (next));
            after = next;
        }
        if (change < 1.0e-12)
            break;
    }

    // Height over the ring, its mean over the patch.
    double height = 0.0, mean = 0.0;
    for (std::size_t e = elements; e-- > 0;)
    {
        const double dr = r[e + 1] - r[e];
        if (r[e + 1] <= 1.000001 * patchRadius)
            mean += (height + 0.5 * slope[e] * dr) * (r[e + 1] * r[e + 1] - r[e] * r[e]) / (patchRadius * patchRadius);
        height += slope[e] * dr;
    }
    return mean;
}

LocalStretch localStretch (const DentedFilm& film)
{
    // Forces that push the film in by about 0.1 to 4 mm.
    constexpr std::array<double, 6> shares{ 0.1, 0.4, 1.0, 3.0, 8.0, 25.0 };
    const double unit = 1.0e-3 * film.tension;
    const double smallest = 1.0e-3 * unit;
    const double linear = smallest / film.deflection (smallest);

    std::array<double, shares.size()> depth{}, cubic{};
    for (std::size_t i = 0; i < shares.size(); ++i)
    {
        const double force = shares[i] * unit;
        depth[i] = film.deflection (force);
        cubic[i] = (force - linear * depth[i]) / std::pow (depth[i], 3);
    }

    // Least squares of relative errors, for a row of knees.
    LocalStretch best;
    best.ringRadius = film.ringRadius;
    double least = 1.0e300;
    for (double knee = 0.1e-3; knee < 10.0e-3; knee *= 1.1)
    {
        double a = 0.0, b = 0.0, c = 0.0, d = 0.0, e = 0.0;
        for (std::size_t i = 0; i < shares.size(); ++i)
        {
            const double one = 1.0 / cubic[i], bent = one / (1.0 + std::pow (depth[i] / knee, 2));
            a += one * one;
            b += one * bent;
            c += bent * bent;
            d += one;
            e += bent;
        }
        const double determinant = a * c - b * b;
        const double hard = std::max (0.0, (d * c - e * b) / determinant), more = std::max (0.0, (a * e - b * d) / determinant);
        double miss = 0.0;
        for (std::size_t i = 0; i < shares.size(); ++i)
            miss += std::pow ((hard + more / (1.0 + std::pow (depth[i] / knee, 2))) / cubic[i] - 1.0, 2);
        if (miss < least)
        {
            least = miss;
            best.soft = hard + more;
            best.hard = hard;
            best.knee = knee;
        }
    }
    return best;
}

} // namespace modal
