// A film pushed in at one place, against a radial solution by other means.

#include "Modal/Units.h"
#include "Modal/heads/Head.h"
#include "Modal/heads/LocalStretch.h"

#include "tests/Catch.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace
{

/** Föppl's round membrane, written for the radial pull N(r) alone: with the strain w'²/2 and compatibility,

        r² N'' + 3 r N' + E h w'²/2 = 0,   w' = -F(r)/(2πrN),

    N' = 0 in the middle, and outside the ring, where the film goes on as a flat sheet, N - T falls as 1/r².
    Solved by Newton's method on an even grid of log r: another unknown and another grid than the library's. Returns the mean deflection
    of the patch. */
double deflectionByPull (double tension, double stretchStiffness, double patch, double ring, double force)
{
    constexpr int n = 1200;
    const double first = std::log (patch / 30.0), h = (std::log (ring) - first) / (n - 1);
    std::vector<double> r (n), extra (n, 0.0);
    for (int i = 0; i < n; ++i)
        r[static_cast<std::size_t> (i)] = std::exp (first + h * i);
    const auto slope = [&] (std::size_t i)
    {
        const double share = std::min (1.0, std::pow (r[i] / patch, 2));
        return force * share / (modal::units::twoPi * r[i] * (tension + extra[i]));
    };
    // In s = ln r: M'' + 2 M' = -E h w'²/2 with M = N - T. Newton's method, tridiagonal.
    for (int turn = 0; turn < 200; ++turn)
    {
        std::vector<double> diagonal (n), upper (n), right (n);
        const auto source = [&] (std::size_t i) { return 0.5 * stretchStiffness * slope (i) * slope (i); };
        for (std::size_t i = 0; i < n; ++i)
        {
            double low = 1.0 / (h * h) - 1.0 / h, middle = -2.0 / (h * h), high = 1.0 / (h * h) + 1.0 / h;
            const double below = i > 0 ? extra[i - 1] : extra[1];
            const double above = i + 1 < n ? extra[i + 1] : extra[i - 1] - 4.0 * h * extra[i];
            double miss = low * below + middle * extra[i] + high * above + source (i);
            middle -= 2.0 * source (i) / (tension + extra[i]);
            if (i == 0)
                high += low; // even about the innermost point
            if (i + 1 == n)
            {
                middle -= 4.0 * h * high; // M' = -2 M outside
                low += high;
            }
            right[i] = -miss;
            if (i > 0)
            {
                const double factor = low / diagonal[i - 1];
                middle -= factor * upper[i - 1];
                right[i] -= factor * right[i - 1];
            }
            diagonal[i] = middle;
            upper[i] = high;
        }
        double change = 0.0;
        for (std::size_t i = n; i-- > 0;)
        {
            right[i] = (right[i] - (i + 1 < n ? upper[i] * right[i + 1] : 0.0)) / diagonal[i];
            // Half steps keep the pull above zero on the way.
            extra[i] = std::max (-0.9 * tension, extra[i] + (turn < 20 ? 0.5 : 1.0) * right[i]);
            change = std::max (change, std::abs (right[i]));
        }
        if (change < 1.0e-9 * tension)
            break;
    }
    double height = 0.0, mean = 0.0;
    for (std::size_t i = n - 1; i-- > 0;)
    {
        const double fall = 0.5 * h * (r[i] * slope (i) + r[i + 1] * slope (i + 1));
        if (r[i + 1] <= patch)
            mean += (height + 0.5 * fall) * (r[i + 1] * r[i + 1] - r[i] * r[i]) / (patch * patch);
        height += fall;
    }
    return mean;
}

} // namespace

TEST_CASE ("A film gives under a load as a radial solution for its pull says")
{
    for (const double tension : { 800.0, 3000.0, 6000.0 })
        for (const double force : { 0.5, 5.0, 20.0, 80.0 })
        {
            modal::DentedFilm film;
            film.tension = tension;
            film.ringRadius = 0.03;
            const double expected = deflectionByPull (tension, film.stretchStiffness, film.patchRadius, film.ringRadius, force);
            CAPTURE (tension, force, expected);
            CHECK (film.deflection (force) == Approx (expected).epsilon (0.02));
        }
}

TEST_CASE ("A small load dents a film by its Green's function")
{
    // F/(2πT)·(ln (ring/patch) + 1/4): the mean over an even disc, schoolbook electrostatics.
    const modal::DentedFilm film;
    const double expected = 1.0e-4 / (modal::units::twoPi * film.tension) * (std::log (film.ringRadius / film.patchRadius) + 0.25);
    CHECK (film.deflection (1.0e-4) == Approx (expected).epsilon (0.005));
}

TEST_CASE ("The spring that stands for the local stretch gives the film's force, and its energy is the force's")
{
    for (const double tension : { 500.0, 2500.0, 8000.0 })
    {
        modal::DentedFilm film;
        film.tension = tension;
        film.ringRadius = 0.03;
        const auto spring = modal::localStretch (film);
        const double linear = 1.0e-4 / film.deflection (1.0e-4);
        for (const double force : { 1.0, 5.0, 15.0, 50.0 })
        {
            const double depth = film.deflection (force);
            CAPTURE (tension, force, depth);
            CHECK (linear * depth + spring.force (depth) == Approx (force).epsilon (0.04));
            const double step = 1.0e-4 * depth;
            CHECK ((spring.energy (depth + step) - spring.energy (depth - step)) / (2.0 * step) ==
                   Approx (spring.force (depth)).epsilon (1.0e-5));
        }
    }
}
