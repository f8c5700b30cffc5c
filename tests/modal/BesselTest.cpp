#include "Modal/mathematics/Bessel.h"

#include "reference/BesselZero.h"
#include "tests/Catch.h"

#include <boost/math/special_functions/bessel.hpp>
#include <boost/math/special_functions/bessel_prime.hpp>
#include <cmath>
#include <gsl/gsl_sf_bessel.h>

namespace
{
constexpr int highestOrder = 60;
constexpr int highestCount = 60;

// Abramowitz & Stegun, table 9.5 (zeros of J_m and of J_m', s = 1 to 5), transcribed from memory to the five decimals that it
// prints. The table counts x = 0 as the first zero of J_0'; the library does not, so that row starts at the second.
constexpr double zerosOfTable[9][5] = {
    { 2.40483, 5.52008, 8.65373, 11.79153, 14.93092 },   { 3.83171, 7.01559, 10.17347, 13.32369, 16.47063 },
    { 5.13562, 8.41724, 11.61984, 14.79595, 17.95982 },  { 6.38016, 9.76102, 13.01520, 16.22347, 19.40942 },
    { 7.58834, 11.06471, 14.37254, 17.61597, 20.82693 }, { 8.77148, 12.33860, 15.70017, 18.98013, 22.21780 },
    { 9.93611, 13.58929, 17.00382, 20.32079, 23.58608 }, { 11.08637, 14.82127, 18.28758, 21.64154, 24.93493 },
    { 12.22509, 16.03777, 19.55454, 22.94517, 26.26681 }
};
constexpr double slopeZerosOfTable[9][5] = {
    { 3.83171, 7.01559, 10.17347, 13.32369, 16.47063 },  { 1.84118, 5.33144, 8.53632, 11.70600, 14.86359 },
    { 3.05424, 6.70613, 9.96947, 13.17037, 16.34752 },   { 4.20119, 8.01524, 11.34592, 14.58585, 17.78875 },
    { 5.31755, 9.28240, 12.68191, 15.96411, 19.19603 },  { 6.41562, 10.51986, 13.98719, 17.31284, 20.57551 },
    { 7.50127, 11.73494, 15.26818, 18.63744, 21.93172 }, { 8.57784, 12.93239, 16.52937, 19.94185, 23.26805 },
    { 9.64742, 14.11552, 17.77401, 21.22906, 24.58720 }
};

/** Half a unit of the table's last printed decimal. */
constexpr double halfAUnit = 0.5e-5 + 1.0e-12;
} // namespace

TEST_CASE ("Zeros of J_m and J_m' agree with Abramowitz & Stegun table 9.5 to its printed digits", "[bessel]")
{
    for (int m = 0; m <= 8; ++m)
    {
        const auto zeros = modal::besselZeros (m, 5);
        const auto slopeZeros = modal::besselPrimeZeros (m, 5);
        for (std::size_t s = 0; s < 5; ++s)
        {
            CAPTURE (m, s);
            CHECK (std::abs (zeros[s] - zerosOfTable[m][s]) < halfAUnit);
            CHECK (std::abs (slopeZeros[s] - slopeZerosOfTable[m][s]) < halfAUnit);
        }
    }
}

TEST_CASE ("Zeros of J_m agree with Boost.Math to 1e-12 for all m, n to 60", "[bessel]")
{
    for (int m = 0; m <= highestOrder; ++m)
    {
        const auto ours = modal::besselZeros (m, highestCount);
        const auto theirs = reference::zerosOfJ (m, highestCount);
        REQUIRE (ours.size() == theirs.size());
        for (std::size_t i = 0; i < ours.size(); ++i)
        {
            CAPTURE (m, i);
            CHECK (std::abs (ours[i] / theirs[i] - 1.0) < 1.0e-12);
        }
    }
}

TEST_CASE ("Zeros of J_m' agree with Boost.Math's derivative to 1e-12 for all m, n to 60", "[bessel]")
{
    for (int m = 0; m <= highestOrder; ++m)
    {
        const auto ours = modal::besselPrimeZeros (m, highestCount);
        const auto theirs = reference::zerosOfJPrime (m, highestCount);
        REQUIRE (ours.size() == theirs.size());
        for (std::size_t i = 0; i < ours.size(); ++i)
        {
            CAPTURE (m, i);
            CHECK (std::abs (ours[i] / theirs[i] - 1.0) < 1.0e-12);
        }
    }
}

TEST_CASE ("GSL finds the same zeros of J_m", "[bessel]")
{
    // GSL's fits for zeros of general order are good to about 5e-9 (its own comments; seen at s = 5), hence the wider bound.
    for (int m = 0; m <= 20; m += 4)
    {
        const auto ours = modal::besselZeros (m, 30);
        for (unsigned s = 1; s <= 30; ++s)
        {
            CAPTURE (m, s);
            CHECK (ours[s - 1] == Approx (gsl_sf_bessel_zero_Jnu (m, s)).epsilon (1.0e-8));
        }
    }
}

TEST_CASE ("J_m and J_m' agree with Boost.Math and GSL on a dense grid", "[bessel]")
{
    double worst = 0.0, worstSlope = 0.0, worstAgainstGsl = 0.0;
    for (int m = 0; m <= highestOrder; ++m)
        for (double x = 0.0; x < 260.0; x += 0.37)
        {
            const double value = modal::besselJ (m, x);
            worst = std::max (worst, std::abs (value - boost::math::cyl_bessel_j (m, x)));
            worstAgainstGsl = std::max (worstAgainstGsl, std::abs (value - gsl_sf_bessel_Jn (m, x)));
            worstSlope = std::max (worstSlope, std::abs (modal::besselJPrime (m, x) - boost::math::cyl_bessel_j_prime (m, x)));
        }

    CAPTURE (worst, worstSlope, worstAgainstGsl);
    CHECK (worst < 1.0e-13);
    CHECK (worstSlope < 1.0e-13);
    CHECK (worstAgainstGsl < 1.0e-12);
}

TEST_CASE ("All orders at once are the same numbers as one order at a time", "[bessel]")
{
    for (const double x : { 0.0, 1.0e-3, 0.7, 5.0, 23.4, 120.0 })
    {
        const auto all = modal::besselJUpTo (40, x);
        REQUIRE (all.size() == 41);
        for (int m = 0; m <= 40; ++m)
        {
            CAPTURE (x, m);
            CHECK (std::abs (all[static_cast<std::size_t> (m)] - boost::math::cyl_bessel_j (m, x)) < 1.0e-13);
        }
    }
}
