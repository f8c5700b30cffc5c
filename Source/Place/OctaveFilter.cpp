#include "OctaveFilter.h"

#include "Modal/Units.h"

#include <Eigen/LU>

#include <algorithm>
#include <cmath>
#include <complex>

namespace place
{
namespace
{

constexpr double steepest = 15.0;      // dB between neighbouring octaves
constexpr double highestShelf = 30.0;  // dB
constexpr double highestOfRate = 0.45; // octaves above this share of the rate are left out

double borderBelow (std::size_t octave)
{
    return bandCentre (octave) / std::sqrt (2.0);
}

/** High shelf of that gain in dB without a peak (bilinear transform of a two-pole prototype, half the gain at the corner). */
Shelves::Stage shelf (double decibels, double corner, double sampleRate)
{
    const double a = std::pow (10.0, decibels / 40.0), w = modal::units::twoPi * corner / sampleRate, c = std::cos (w);
    const double s = std::sqrt (2.0 * a) * std::sin (w);
    const double norm = 1.0 / ((a + 1.0) - (a - 1.0) * c + s);
    return { a * ((a + 1.0) + (a - 1.0) * c + s) * norm, -2.0 * a * ((a - 1.0) + (a + 1.0) * c) * norm,
             a * ((a + 1.0) + (a - 1.0) * c - s) * norm, 2.0 * ((a - 1.0) - (a + 1.0) * c) * norm,
             ((a + 1.0) - (a - 1.0) * c - s) * norm };
}

double decibelsOf (const Shelves::Stage& s, double frequency, double sampleRate)
{
    const auto z = std::polar (1.0, -modal::units::twoPi * frequency / sampleRate);
    return 10.0 * std::log10 (std::norm (s.b0 + z * (s.b1 + z * s.b2)) / std::norm (1.0 + z * (s.a1 + z * s.a2)));
}

} // namespace

double Shelves::decibelsAt (double frequency, double sampleRate) const noexcept
{
    double sum = 20.0 * std::log10 (gain);
    for (const auto& stage : stages)
        sum += decibelsOf (stage, frequency, sampleRate);
    return sum;
}

Shelves shelvesFor (const Decay::Bands& decibels, double sampleRate)
{
    Eigen::Index used = 0;
    while (used < static_cast<Eigen::Index> (decibels.size()) &&
           bandCentre (static_cast<std::size_t> (used)) <= highestOfRate * sampleRate)
        ++used;
    const auto octave = [] (Eigen::Index i) { return static_cast<std::size_t> (i); };

    Eigen::VectorXd wanted (used);
    for (Eigen::Index i = 0; i < used; ++i)
        wanted[i] = i == 0 ? decibels[0] : std::clamp (decibels[octave (i)], wanted[i - 1] - steepest, wanted[i - 1] + steepest);

    // What 1 dB of the overall gain (first column) and of each shelf gives in the middle of each octave.
    Eigen::MatrixXd response (used, used);
    response.col (0).setOnes();
    for (Eigen::Index k = 1; k < used; ++k)
        for (Eigen::Index i = 0; i < used; ++i)
            response (i, k) = decibelsOf (shelf (1.0, borderBelow (octave (k)), sampleRate), bandCentre (octave (i)), sampleRate);
    const auto inverse = response.partialPivLu();

    // Responses are all but proportional to the gains: a few corrections are enough.
    Eigen::VectorXd gains = inverse.solve (wanted);
    Shelves shelves;
    for (int round = 0; round < 8; ++round)
    {
        gains = gains.cwiseMax (-highestShelf).cwiseMin (highestShelf);
        shelves.gain = std::pow (10.0, gains[0] / 20.0);
        for (Eigen::Index k = 1; k < used; ++k)
            shelves.stages[octave (k - 1)] = shelf (gains[k], borderBelow (octave (k)), sampleRate);

        Eigen::VectorXd missing (used);
        for (Eigen::Index i = 0; i < used; ++i)
            missing[i] = wanted[i] - shelves.decibelsAt (bandCentre (octave (i)), sampleRate);
        if (missing.cwiseAbs().maxCoeff() < 1.0e-6)
            break;
        gains += inverse.solve (missing);
    }
    return shelves;
}

} // namespace place
