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

/** Power limits below which a sine counts as room response. */
struct RoomDoubt
{
    double faintest;  ///< over the strongest sine
    double ofChannel; ///< over the whole channel
};

/** Several channels share modes but not room responses, so less of each channel must be explained. */
constexpr RoomDoubt oneChannel{ 3.0e-4, 1.0e-3 }, severalChannels{ 1.0e-3, 3.0e-2 };

// A sine has four unknowns. Too few samples leave no residue to estimate errors from.
constexpr Index fewestSamples = 16, samplesPerSine = 6;

/** Samples; 0 without channels. */
Index shortestOf (const std::vector<Channel>& channels)
{
    Index shortest = channels.empty() ? 0 : channels.front().samples.size();

    for (const auto& channel : channels)
        shortest = std::min (shortest, channel.samples.size());

    return shortest;
}

/** Poles per sample from the dominant subspace of the Hankel matrices of all channels side by side. */
std::vector<Complex> polesBySubspace (const std::vector<Channel>& channels, int most)
{
    const auto& doubt = channels.size() == 1 ? oneChannel : severalChannels;
    const Index rows = std::clamp<Index> (shortestOf (channels) / 3, 8, 48);
    Index columns = 0;
    Eigen::MatrixXcd covariance = Eigen::MatrixXcd::Zero (rows, rows);

    for (const auto& [samples, noiseVariance] : channels)
    {
        Eigen::MatrixXcd hankel (rows, samples.size() - rows + 1);

        for (Index c = 0; c < hankel.cols(); ++c)
            hankel.col (c) = samples.segment (c, rows);

        // Each channel is scaled by its own noise and room doubt, so that none dominates.
        const double power = samples.squaredNorm() / static_cast<double> (samples.size());
        covariance += hankel * hankel.adjoint() / (noiseVariance + doubt.ofChannel * power + 1.0e-300);
        columns += hankel.cols();
    }

    const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXcd> solver (covariance / static_cast<double> (columns));
    const auto& values = solver.eigenvalues();

    // The largest eigenvalue of pure noise (Marchenko & Pastur), with a margin because neighbouring columns share their samples.
    const double spread = 1.0 + std::sqrt (static_cast<double> (rows) / static_cast<double> (columns));
    const double threshold = std::max (2.0 * spread * spread, doubt.faintest * values[rows - 1]);
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

/** Least squares of one channel's poles with the amplitudes eliminated (variable projection, Kaufman 1975). */
class Projection
{
public:
    Projection (const Eigen::VectorXcd& samples, const Eigen::VectorXcd& poles, double rate)
        : times (Eigen::ArrayXd::LinSpaced (samples.size(), 0.0, static_cast<double> (samples.size() - 1) / rate)),
          exponentials (samples.size(), poles.size())
    {
        for (Index k = 0; k < poles.size(); ++k)
            exponentials.col (k) = (poles[k] * times.cast<Complex>()).exp().matrix();

        solver.compute (exponentials);
        amplitudes = solver.solve (samples);
        left = samples - exponentials * amplitudes;
    }

    /** Derivative of the signal by the poles, amplitudes adapted. */
    Eigen::MatrixXcd jacobian() const
    {
        const auto byPoles = held();
        return byPoles - exponentials * solver.solve (byPoles);
    }

    /** Variance of each amplitude from the samples' variance and the poles' covariance. */
    Eigen::VectorXd amplitudeVariances (double variance, const Eigen::MatrixXcd& polesCovariance) const
    {
        const Eigen::MatrixXcd normal = exponentials.adjoint() * exponentials;
        const Eigen::MatrixXcd byPoles = solver.solve (held());
        return variance * normal.completeOrthogonalDecomposition().pseudoInverse().diagonal().real() +
               (byPoles * polesCovariance * byPoles.adjoint()).diagonal().real();
    }

    Eigen::VectorXcd amplitudes, left;

private:
    /** Derivative of the signal by the poles, amplitudes held. */
    Eigen::MatrixXcd held() const { return times.matrix().cast<Complex>().asDiagonal() * exponentials * amplitudes.asDiagonal(); }

    Eigen::ArrayXd times;
    Eigen::MatrixXcd exponentials;
    Eigen::ColPivHouseholderQR<Eigen::MatrixXcd> solver;
};

/** All channels with the same poles. */
struct Projections
{
    Projections (const std::vector<Channel>& channels, const Eigen::VectorXcd& poles, double rate)
    {
        for (const auto& channel : channels)
            all.emplace_back (channel.samples, poles, rate);
    }

    /** Sum of squared residues, each channel over its variance. */
    double residue (const Eigen::VectorXd& variances) const
    {
        double sum = 0.0;

        for (std::size_t c = 0; c < all.size(); ++c)
            sum += all[c].left.squaredNorm() / variances[static_cast<Index> (c)];

        return sum;
    }

    /** Mean square of the residue of each channel. */
    Eigen::VectorXd variances() const
    {
        Eigen::VectorXd found (static_cast<Index> (all.size()));

        for (std::size_t c = 0; c < all.size(); ++c)
        {
            const auto& one = all[c];
            const auto free = std::max<Index> (1, one.left.size() - 2 * one.amplitudes.size());
            found[static_cast<Index> (c)] = std::max (1.0e-300, one.left.squaredNorm() / static_cast<double> (free));
        }

        return found;
    }

    std::vector<Projection> all;
};

} // namespace

std::vector<CommonSine> commonSines (const std::vector<Channel>& channels, double rate, int most)
{
    const auto shortest = shortestOf (channels);

    if (shortest < fewestSamples)
        return {};

    const auto told = std::min (most, static_cast<int> (shortest / samplesPerSine));

    std::vector<Complex> kept;

    for (const auto pole : polesBySubspace (channels, told))
        if (std::abs (pole) > 0.3 && std::abs (pole) < 1.05)
            kept.push_back (std::log (pole) * rate);

    if (kept.empty())
        return {};

    Eigen::VectorXcd poles = Eigen::Map<Eigen::VectorXcd> (kept.data(), static_cast<Index> (kept.size()));
    const auto count = poles.size();
    Projections now (channels, poles, rate);
    Eigen::VectorXd variances = now.variances();
    Eigen::MatrixXcd normal (count, count);
    Eigen::VectorXcd pull (count);

    const auto fillNormal = [&]
    {
        normal.setZero();
        pull.setZero();

        for (std::size_t c = 0; c < channels.size(); ++c)
        {
            const auto jacobian = now.all[c].jacobian();
            normal += jacobian.adjoint() * jacobian / variances[static_cast<Index> (c)];
            pull += jacobian.adjoint() * now.all[c].left / variances[static_cast<Index> (c)];
        }
    };

    for (int step = 0; step < 8; ++step)
    {
        fillNormal();
        const Eigen::VectorXcd next = poles + normal.completeOrthogonalDecomposition().solve (pull);
        Projections then (channels, next, rate);
        const double before = now.residue (variances), after = then.residue (variances);

        if (! (after < before))
            break;

        poles = next;
        now = std::move (then);
        variances = now.variances();

        if (after > before * (1.0 - 1.0e-9))
            break;
    }

    fillNormal();
    const Eigen::MatrixXcd covariance = normal.completeOrthogonalDecomposition().pseudoInverse();
    std::vector<CommonSine> found;

    for (Index k = 0; k < count; ++k) // each part has half of the complex variance
        found.push_back ({ poles[k], std::sqrt (std::max (0.0, 0.5 * covariance (k, k).real())), {}, {} });

    for (std::size_t c = 0; c < channels.size(); ++c)
    {
        const auto spread = now.all[c].amplitudeVariances (variances[static_cast<Index> (c)], covariance);

        for (Index k = 0; k < count; ++k)
        {
            auto& sine = found[static_cast<std::size_t> (k)];
            sine.amplitude.push_back (now.all[c].amplitudes[k]);
            sine.amplitudeError.push_back (std::sqrt (std::max (0.0, 0.5 * spread[k])));
        }
    }

    return found;
}

std::vector<DampedSine> dampedSines (const Eigen::VectorXcd& samples, double rate, double noiseVariance, int most)
{
    std::vector<DampedSine> found;

    for (const auto& sine : commonSines ({ { samples, noiseVariance } }, rate, most))
        found.push_back ({ sine.pole, sine.amplitude.front(), sine.poleError, sine.amplitudeError.front() });

    return found;
}

} // namespace listening
