#include "DampedSines.h"

#include <Eigen/Eigenvalues>
#include <Eigen/QR>

#include <algorithm>
#include <cmath>

namespace listening
{
namespace
{

using Complex = std::complex<double>;
using Eigen::Index;

/** What is fainter than this beside the strongest, in power, is as likely the room's answer as a mode. */
constexpr double faintest = 3.0e-4;

/** Poles a sample from the dominant subspace of the Hankel matrix. */
std::vector<Complex> polesBySubspace (const Eigen::VectorXcd& y, double noiseVariance, int most)
{
    const Index rows = std::clamp<Index> (y.size() / 3, 8, 48);
    const Index columns = y.size() - rows + 1;
    Eigen::MatrixXcd hankel (rows, columns);

    for (Index c = 0; c < columns; ++c)
        hankel.col (c) = y.segment (c, rows);

    const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXcd> solver (hankel * hankel.adjoint() / static_cast<double> (columns));
    const auto& values = solver.eigenvalues();

    // The largest eigenvalue of pure noise (Marchenko & Pastur), with a margin because neighbouring columns share their samples.
    const double spread = 1.0 + std::sqrt (static_cast<double> (rows) / static_cast<double> (columns));
    const double threshold = std::max (2.0 * noiseVariance * spread * spread, faintest * values[rows - 1]);
    Index order = 0;

    while (order < most && values[rows - 1 - order] > threshold)
        ++order;

    if (order == 0)
        return {};

    const Eigen::MatrixXcd subspace = solver.eigenvectors().rightCols (order);
    const Eigen::MatrixXcd shift = subspace.topRows (rows - 1).colPivHouseholderQr().solve (subspace.bottomRows (rows - 1));
    const Eigen::ComplexEigenSolver<Eigen::MatrixXcd> eigen (shift, false);
    return { eigen.eigenvalues().begin(), eigen.eigenvalues().end() };
}

/** A column a pole: exp (pole·t). */
Eigen::MatrixXcd exponentials (const Eigen::VectorXcd& poles, const Eigen::ArrayXd& times)
{
    Eigen::MatrixXcd e (times.size(), poles.size());

    for (Index k = 0; k < poles.size(); ++k)
        e.col (k) = (poles[k] * times.cast<Complex>()).exp().matrix();

    return e;
}

} // namespace

std::vector<DampedSine> dampedSines (const Eigen::VectorXcd& samples, double rate, double noiseVariance, int most)
{
    // A sine has four unknowns. With few more samples than unknowns nothing is left over that could tell errors.
    constexpr Index fewestSamples = 16, samplesPerSine = 6;

    if (samples.size() < fewestSamples)
        return {};

    const auto told = std::min (most, static_cast<int> (samples.size() / samplesPerSine));

    std::vector<Complex> kept;

    for (const auto pole : polesBySubspace (samples, noiseVariance, told))
        if (const auto continuous = std::log (pole) * rate; std::abs (pole) > 0.3 && std::abs (pole) < 1.05)
            kept.push_back (continuous);

    if (kept.empty())
        return {};

    const Eigen::ArrayXd times = Eigen::ArrayXd::LinSpaced (samples.size(), 0.0, static_cast<double> (samples.size() - 1) / rate);
    Eigen::VectorXcd poles = Eigen::Map<Eigen::VectorXcd> (kept.data(), static_cast<Index> (kept.size()));
    const auto count = poles.size();
    Eigen::VectorXcd amplitudes = exponentials (poles, times).colPivHouseholderQr().solve (samples);
    Eigen::MatrixXcd jacobian (samples.size(), 2 * count);
    double residue = (samples - exponentials (poles, times) * amplitudes).squaredNorm();

    const auto fillJacobian = [&]
    {
        jacobian.leftCols (count) = exponentials (poles, times);
        jacobian.rightCols (count) =
            times.matrix().cast<Complex>().asDiagonal() * jacobian.leftCols (count) * amplitudes.asDiagonal();
    };

    for (int step = 0; step < 8; ++step)
    {
        fillJacobian();
        const Eigen::VectorXcd difference = samples - jacobian.leftCols (count) * amplitudes;
        const Eigen::VectorXcd change = jacobian.colPivHouseholderQr().solve (difference);
        const Eigen::VectorXcd nextPoles = poles + change.tail (count);
        const auto basis = exponentials (nextPoles, times);
        const Eigen::VectorXcd nextAmplitudes = basis.colPivHouseholderQr().solve (samples);
        const double nextResidue = (samples - basis * nextAmplitudes).squaredNorm();

        if (! (nextResidue < residue))
            break;

        const bool isSettled = nextResidue > residue * (1.0 - 1.0e-9);
        poles = nextPoles;
        amplitudes = nextAmplitudes;
        residue = nextResidue;

        if (isSettled)
            break;
    }

    fillJacobian();
    const double variance = residue / static_cast<double> (std::max<Index> (1, samples.size() - 2 * count));
    const Eigen::MatrixXcd normal = jacobian.adjoint() * jacobian;
    const Eigen::MatrixXcd inverse = normal.completeOrthogonalDecomposition().pseudoInverse();
    std::vector<DampedSine> found;

    for (Index k = 0; k < count; ++k)
    {
        // Half of a complex variance belongs to each part.
        const double poleVariance = 0.5 * variance * inverse (count + k, count + k).real();
        const double amplitudeVariance = 0.5 * variance * inverse (k, k).real();
        found.push_back (
            { poles[k], amplitudes[k], std::sqrt (std::max (0.0, poleVariance)), std::sqrt (std::max (0.0, amplitudeVariance)) });
    }

    return found;
}

} // namespace listening
