#include "DampedSines.h"

#include "Modal/Units.h"

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
    double added;     ///< energy of a sine found in the residue over the channel's, mean of the channels
};

/** Several channels share modes but not room responses, so less of each channel must be explained. Chosen on the strikes of
    listening-benchmark; no source. */
constexpr RoomDoubt oneChannel{ 3.0e-4, 1.0e-3, 1.0e-4 }, severalChannels{ 1.0e-3, 3.0e-2, 2.0e-3 };

const RoomDoubt& doubtOf (const std::vector<Channel>& channels)
{
    return channels.size() == 1 ? oneChannel : severalChannels;
}

// A sine has four unknowns. Too few samples leave no residue to estimate errors from.
constexpr Index fewestSamples = 16, samplesPerSine = 6;

constexpr double smear = 1.0e-5; // of a channel's power

constexpr Index longestWindow = 48; // samples: rows of a Hankel matrix

/** Samples; 0 without channels. */
Index shortestOf (const std::vector<Channel>& channels)
{
    Index shortest = channels.empty() ? 0 : channels.front().samples.size();

    for (const auto& channel : channels)
        shortest = std::min (shortest, channel.samples.size());

    return shortest;
}

Eigen::MatrixXcd hankelOf (const Eigen::VectorXcd& samples, Index rows)
{
    Eigen::MatrixXcd hankel (rows, samples.size() - rows + 1);

    for (Index c = 0; c < hankel.cols(); ++c)
        hankel.col (c) = samples.segment (c, rows);

    return hankel;
}

/** Poles per sample from the last `order` eigenvectors of a covariance: they span the signal, which a shift by one sample turns.
 */
std::vector<Complex> polesOf (const Eigen::MatrixXcd& eigenvectors, Index order)
{
    const auto rows = eigenvectors.rows();
    const Eigen::MatrixXcd subspace = eigenvectors.rightCols (order);
    const Eigen::MatrixXcd shift = subspace.topRows (rows - 1).colPivHouseholderQr().solve (subspace.bottomRows (rows - 1));
    const Eigen::ComplexEigenSolver<Eigen::MatrixXcd> eigen (shift, false);
    std::vector<Complex> kept;

    for (const auto pole : eigen.eigenvalues())
        if (std::abs (pole) > 0.3 && std::abs (pole) < 1.05)
            kept.push_back (pole);

    return kept;
}

/** Poles per sample from the dominant subspace of the Hankel matrices of all channels side by side. */
std::vector<Complex> polesBySubspace (const std::vector<Channel>& channels, int most)
{
    const auto& doubt = doubtOf (channels);
    const Index rows = std::clamp<Index> (shortestOf (channels) / 3, 8, longestWindow);
    Index columns = 0;
    Eigen::MatrixXcd covariance = Eigen::MatrixXcd::Zero (rows, rows);

    for (const auto& channel : channels)
    {
        const auto hankel = hankelOf (channel.samples, rows);
        // Each channel is scaled by its own noise and room doubt, so that none dominates.
        const double power = channel.samples.squaredNorm() / static_cast<double> (channel.samples.size());
        covariance += hankel * hankel.adjoint() / (channel.noiseVariance + doubt.ofChannel * power + 1.0e-300);
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

    return order == 0 ? std::vector<Complex>{} : polesOf (solver.eigenvectors(), order);
}

/** Where each unknown stands in their vector: decays and angular frequencies of all sines; if there is a glide, also what each
    sine's glide is over its channel's, minus 1, and how far each channel's rise and rate are off, as logarithms. */
struct Layout
{
    Index sines = 0, channels = 0;
    bool hasGlide = false;

    Index size() const { return hasGlide ? 3 * sines + 2 * channels : 2 * sines; }
    Index decay (Index k) const { return k; }
    Index frequency (Index k) const { return sines + k; }
    Index share (Index k) const { return 2 * sines + k; }
    Index rise (Index c) const { return 3 * sines + c; }
    Index rate (Index c) const { return 3 * sines + channels + c; }

    /** Inverse variances about 0: only what belongs to the glide is known beforehand. Heads are stretched one by one, so a mode
        glides by the share of its energy in the head that was struck. */
    Eigen::VectorXd prior() const
    {
        constexpr double shareSpread = 0.4, riseSpread = 0.3, rateSpread = 0.5;
        Eigen::VectorXd inverse = Eigen::VectorXd::Zero (size());

        if (hasGlide)
        {
            inverse.segment (share (0), sines).setConstant (1.0 / (shareSpread * shareSpread));
            inverse.segment (rise (0), channels).setConstant (1.0 / (riseSpread * riseSpread));
            inverse.segment (rate (0), channels).setConstant (1.0 / (rateSpread * rateSpread));
        }

        return inverse;
    }
};

/** The signals and how much each of their samples counts: one over its standard deviation, relative to the channel's. */
struct Signals
{
    const std::vector<Channel>& channels;
    double rate; ///< samples a second
    std::vector<Eigen::ArrayXd> weights;
};

/** Least squares of one channel with the amplitudes eliminated (variable projection, Kaufman 1975). */
class Projection
{
public:
    Projection (const Channel& channel, const Eigen::ArrayXd& weights, Index index, double rate, const Layout& ofUnknowns,
                const Eigen::VectorXd& unknowns)
        : exponentials (channel.samples.size(), ofUnknowns.sines), layout (ofUnknowns), channelIndex (index)
    {
        const auto count = channel.samples.size();
        const auto steady =
            Eigen::ArrayXd::LinSpaced (count, channel.firstTime, channel.firstTime + static_cast<double> (count - 1) / rate);
        auto glide = channel.glide;

        if (layout.hasGlide && ! glide.isNone())
        {
            times = steady.unaryExpr ([&] (double u) { return channel.glide.timeAt (u); });
            glide.rise *= std::exp (unknowns[layout.rise (index)]);
            glide.rate *= std::exp (unknowns[layout.rate (index)]);
            rising = glide.rise * times.unaryExpr ([&] (double t) { return glide.integral (t); });
            byRate = glide.rise * times * (-glide.rate * times).exp() - rising;
        }
        else
        {
            times = steady;
            rising = byRate = Eigen::ArrayXd::Zero (count);
        }

        const double carrier = modal::units::twoPi * channel.carrier;
        shares.resize (layout.sines);
        whole.resize (layout.sines);

        for (Index k = 0; k < layout.sines; ++k)
        {
            shares[k] = layout.hasGlide ? 1.0 + unknowns[layout.share (k)] : 1.0;
            whole[k] = carrier + unknowns[layout.frequency (k)];
            const Eigen::ArrayXd turn = whole[k] * (times + shares[k] * rising) - carrier * steady;
            const Eigen::ArrayXd level = (-unknowns[layout.decay (k)] * (times - times[0])).exp();
            const double start = turn[0];

            for (Index n = 0; n < count; ++n)
                exponentials (n, k) = std::polar (level[n] * weights[n], turn[n] - start);
        }

        const Eigen::VectorXcd samples = weights.matrix().asDiagonal() * channel.samples;
        solver.compute (exponentials);
        amplitudes = solver.solve (samples);
        left = samples - exponentials * amplitudes;

        if (! glide.isNone())
            least += smear * channel.samples.squaredNorm() / static_cast<double> (count);
    }

    /** Derivative of the signal by the unknowns, amplitudes adapted. */
    Eigen::MatrixXcd jacobian() const
    {
        const auto byUnknowns = held();
        return byUnknowns - exponentials * solver.solve (byUnknowns);
    }

    double energyOf (Index sine) const { return std::norm (amplitudes[sine]) * exponentials.col (sine).squaredNorm(); }

    /** Variance of each amplitude from the samples' variance and the unknowns' covariance. */
    Eigen::VectorXd amplitudeVariances (double variance, const Eigen::MatrixXd& covariance) const
    {
        const Eigen::MatrixXcd normal = exponentials.adjoint() * exponentials;
        const Eigen::MatrixXcd byUnknowns = solver.solve (held());
        return variance * normal.completeOrthogonalDecomposition().pseudoInverse().diagonal().real() +
               (byUnknowns * covariance.cast<Complex>() * byUnknowns.adjoint()).diagonal().real();
    }

    Eigen::MatrixXcd exponentials;     ///< sample × sine, times the weights
    Eigen::VectorXcd amplitudes, left; ///< `left` times the weights
    double least = 1.0e-300;           ///< of the residue's variance: the band's filter smears a glide

private:
    /** Derivative of the signal by the unknowns, amplitudes held. */
    Eigen::MatrixXcd held() const
    {
        Eigen::MatrixXcd columns = Eigen::MatrixXcd::Zero (exponentials.rows(), layout.size());
        const auto turned = [] (const Eigen::ArrayXd& phase) { return (Complex (0.0, 1.0) * phase.cast<Complex>()).eval(); };
        const auto since = [] (const Eigen::ArrayXd& values) { return (values - values[0]).eval(); };

        for (Index k = 0; k < layout.sines; ++k)
        {
            const Eigen::ArrayXcd sine = exponentials.col (k).array() * amplitudes[k];
            columns.col (layout.decay (k)) = -since (times).cast<Complex>() * sine;
            columns.col (layout.frequency (k)) = turned (since (times + shares[k] * rising)) * sine;

            if (layout.hasGlide)
            {
                columns.col (layout.share (k)) = turned (whole[k] * since (rising)) * sine;
                columns.col (layout.rise (channelIndex)).array() += turned (whole[k] * shares[k] * since (rising)) * sine;
                columns.col (layout.rate (channelIndex)).array() += turned (whole[k] * shares[k] * since (byRate)) * sine;
            }
        }

        return columns;
    }

    Layout layout;
    Index channelIndex;
    Eigen::ArrayXd times;          ///< s since the blow
    Eigen::ArrayXd rising, byRate; ///< s: what the glide adds to steady time, and its derivative by ln rate
    Eigen::VectorXd shares, whole; ///< of each sine: its glide over its channel's, its angular frequency
    Eigen::ColPivHouseholderQR<Eigen::MatrixXcd> solver;
};

/** All channels with the same unknowns. */
struct Projections
{
    Projections (const Signals& signals, const Layout& layout, const Eigen::VectorXd& at) : unknowns (at), prior (layout.prior())
    {
        for (std::size_t c = 0; c < signals.channels.size(); ++c)
            all.emplace_back (signals.channels[c], signals.weights[c], static_cast<Index> (c), signals.rate, layout, unknowns);
    }

    /** −2 ln of the probability: squared residues, each channel over its variance, and the prior. A complex sample's two parts
        have half of its variance each. */
    double cost (const Eigen::VectorXd& variances) const
    {
        double sum = unknowns.cwiseAbs2().dot (prior);

        for (std::size_t c = 0; c < all.size(); ++c)
            sum += 2.0 * all[c].left.squaredNorm() / variances[static_cast<Index> (c)];

        return sum;
    }

    /** −2 ln of the probability with each channel's variance as the residue shows it. */
    double badness() const
    {
        double sum = unknowns.cwiseAbs2().dot (prior);
        const auto estimated = variances();

        for (std::size_t c = 0; c < all.size(); ++c)
            sum += 2.0 * static_cast<double> (all[c].left.size()) * std::log (estimated[static_cast<Index> (c)]);

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
            found[static_cast<Index> (c)] = one.least + one.left.squaredNorm() / static_cast<double> (free);
        }

        return found;
    }

    /** The information matrix and the pull on the unknowns. */
    void fillNormal (const Eigen::VectorXd& variances, Eigen::MatrixXd& normal, Eigen::VectorXd& pull) const
    {
        normal = prior.asDiagonal();
        pull = -prior.cwiseProduct (unknowns);

        for (std::size_t c = 0; c < all.size(); ++c)
        {
            const auto jacobian = all[c].jacobian();
            const double weight = 2.0 / variances[static_cast<Index> (c)];
            normal += weight * (jacobian.adjoint() * jacobian).real();
            pull += weight * (jacobian.adjoint() * all[c].left).real();
        }
    }

    Eigen::VectorXd unknowns, prior;
    std::vector<Projection> all;
};

/** Gauss–Newton until it settles. */
Projections settled (const Signals& signals, const Layout& layout, const Eigen::VectorXd& start)
{
    Projections now (signals, layout, start);
    Eigen::VectorXd variances = now.variances();
    Eigen::MatrixXd normal;
    Eigen::VectorXd pull;
    const int steps = layout.hasGlide ? 16 : 8;

    for (int step = 0; step < steps; ++step)
    {
        now.fillNormal (variances, normal, pull);
        const Eigen::VectorXd move = normal.completeOrthogonalDecomposition().solve (pull);
        const double before = now.cost (variances);
        double after = before;

        // A glide bends the sum of squares, so that a whole step may lead too far.
        for (double part = 1.0; part >= (layout.hasGlide ? 0.1 : 1.0) && ! (after < before); part *= 0.4)
        {
            Projections then (signals, layout, now.unknowns + part * move);

            if (then.cost (variances) < before)
            {
                after = then.cost (variances);
                now = std::move (then);
            }
        }

        variances = now.variances();

        if (! (after < before * (1.0 - 1.0e-9)))
            break;
    }

    return now;
}

/** The unknowns without those of one sine. */
Eigen::VectorXd without (Index sine, const Layout& layout, const Eigen::VectorXd& unknowns)
{
    std::vector<double> kept;

    for (Index i = 0; i < unknowns.size(); ++i)
        if (i != layout.decay (sine) && i != layout.frequency (sine) && ! (layout.hasGlide && i == layout.share (sine)))
            kept.push_back (unknowns[i]);

    return Eigen::Map<Eigen::VectorXd> (kept.data(), static_cast<Index> (kept.size()));
}

/** Schwarz's criterion: what a sine must gain in −2 ln of the probability for its unknowns. */
double costOfSine (const std::vector<Channel>& channels)
{
    const double unknowns = 3.0 + 2.0 * static_cast<double> (channels.size());
    return unknowns * std::log (2.0 * static_cast<double> (shortestOf (channels)));
}

/** Leaves out sines that explain no more than chance: in a band with a glide the subspace splits a mode into several. */
void prune (const Signals& signals, Layout& layout, Projections& now)
{
    for (bool isPruned = true; isPruned && layout.sines > 1;)
    {
        isPruned = false;
        Eigen::VectorXd energies = Eigen::VectorXd::Zero (layout.sines), certainty = energies;

        for (std::size_t c = 0; c < signals.channels.size(); ++c)
        {
            const auto spread = now.all[c].amplitudeVariances (1.0, Eigen::MatrixXd::Zero (layout.size(), layout.size()));

            for (Index k = 0; k < layout.sines; ++k)
            {
                const double square = std::norm (now.all[c].amplitudes[k]) / now.variances()[static_cast<Index> (c)];
                energies[k] += square / std::max (0.3, now.unknowns[layout.decay (k)]);
                certainty[k] += square / spread[k];
            }
        }

        Index weakest = 0, vaguest = 0;
        energies.minCoeff (&weakest);
        certainty.minCoeff (&vaguest);
        auto fewer = layout;
        --fewer.sines;

        for (const auto sine : { weakest, vaguest })
            if (auto then = settled (signals, fewer, without (sine, layout, now.unknowns));
                ! isPruned && then.badness() < now.badness() + costOfSine (signals.channels))
            {
                now = std::move (then);
                layout = fewer;
                isPruned = true;
                break;
            }
    }
}

/** The damped sine that explains most of the residues, by matched filters: decay and angular frequency. */
std::pair<double, double> strongestLeft (const Signals& signals, const Projections& now)
{
    constexpr int steps = 512; // over all frequencies of a band
    const auto variances = now.variances();
    std::pair<double, double> best{ 10.0, 0.0 };
    double most = 0.0;

    for (const double decay : { 3.0, 10.0, 30.0 })
    {
        std::vector<double> powers; // of the matched filter, whatever its frequency

        for (const auto& weights : signals.weights)
        {
            const auto n = weights.size();
            const Eigen::ArrayXd falls =
                (-decay / signals.rate * Eigen::ArrayXd::LinSpaced (n, 0.0, static_cast<double> (n - 1))).exp();
            powers.push_back ((falls * weights.array()).square().sum());
        }

        for (int i = 0; i < steps; ++i)
        {
            const double frequency = modal::units::twoPi * signals.rate * (static_cast<double> (i) / steps - 0.5);
            double explained = 0.0;

            for (std::size_t c = 0; c < now.all.size(); ++c)
            {
                const auto& left = now.all[c].left;
                const Complex turn = std::exp (Complex (-decay, -frequency) / signals.rate);
                Complex sum = 0.0, phasor = 1.0;

                for (Index n = 0; n < left.size(); ++n, phasor *= turn)
                    sum += left[n] * phasor * signals.weights[c][n];

                explained += std::norm (sum) / (powers[c] * variances[static_cast<Index> (c)]);
            }

            if (explained > most)
            {
                most = explained;
                best = { decay, frequency };
            }
        }
    }

    return best;
}

/** The unknowns with those of one sine more. */
Eigen::VectorXd with (std::pair<double, double> decayAndFrequency, const Layout& layout, const Eigen::VectorXd& unknowns)
{
    const auto k = layout.sines;
    auto fuller = layout;
    ++fuller.sines;
    Eigen::VectorXd all = Eigen::VectorXd::Zero (fuller.size());

    for (Index i = 0; i < k; ++i)
    {
        all[fuller.decay (i)] = unknowns[layout.decay (i)];
        all[fuller.frequency (i)] = unknowns[layout.frequency (i)];

        if (layout.hasGlide)
            all[fuller.share (i)] = unknowns[layout.share (i)];
    }

    if (layout.hasGlide)
        all.tail (2 * layout.channels) = unknowns.tail (2 * layout.channels);

    all[fuller.decay (k)] = decayAndFrequency.first;
    all[fuller.frequency (k)] = decayAndFrequency.second;
    return all;
}

/** Energy of the last sine over its channel's, mean of the channels. */
double shareOfLast (const Signals& signals, const Projections& now)
{
    double sum = 0.0;

    for (std::size_t c = 0; c < now.all.size(); ++c)
        sum += now.all[c].energyOf (now.all[c].amplitudes.size() - 1) /
               (signals.weights[c].matrix().asDiagonal() * signals.channels[c].samples).squaredNorm();

    return sum / static_cast<double> (now.all.size());
}

/** Adds sines as long as each explains more than chance and is too strong for the room's response. */
void grow (const Signals& signals, Layout& layout, Projections& now, int most)
{
    while (layout.sines < most)
    {
        auto fuller = layout;
        ++fuller.sines;
        auto then = settled (signals, fuller, with (strongestLeft (signals, now), layout, now.unknowns));

        if (! (then.badness() + costOfSine (signals.channels) < now.badness()) ||
            shareOfLast (signals, then) < doubtOf (signals.channels).added)
            break;

        now = std::move (then);
        layout = fuller;
    }
}

/** Covariance of the unknowns by the residues. */
Eigen::MatrixXd covarianceOf (const Projections& now)
{
    Eigen::MatrixXd normal;
    Eigen::VectorXd pull;
    now.fillNormal (now.variances(), normal, pull);
    return normal.completeOrthogonalDecomposition().pseudoInverse();
}

/** Amplitudes over their standard deviations: each sine's in the channel where it is clearest. */
Eigen::VectorXd clarityOf (const Projections& now)
{
    const auto covariance = covarianceOf (now);
    const auto variances = now.variances();
    Eigen::VectorXd clarity;

    for (std::size_t c = 0; c < now.all.size(); ++c)
    {
        const auto& channel = now.all[c];
        const Eigen::VectorXd spread = 0.5 * channel.amplitudeVariances (variances[static_cast<Index> (c)], covariance);
        const Eigen::VectorXd here = channel.amplitudes.cwiseAbs().cwiseQuotient (spread.cwiseMax (1.0e-300).cwiseSqrt());
        clarity = c == 0 ? here : clarity.cwiseMax (here).eval();
    }

    return clarity;
}

/** Leaves out one sine, to which the others adapt. */
void leaveOut (Index sine, const Signals& signals, Layout& layout, Projections& now)
{
    auto fewer = layout;
    --fewer.sines;
    now = settled (signals, fewer, without (sine, layout, now.unknowns));
    layout = fewer;
}

/** Leaves out sines that are not clear of the noise, the vaguest first, while the others adapt: a mode that was taken for two of
    nearly one frequency becomes one that is well known. */
void dropVague (const Signals& signals, Layout& layout, Projections& now)
{
    while (layout.sines > 1)
    {
        Index vaguest = 0;

        if (clarityOf (now).minCoeff (&vaguest) >= fewestDeviations)
            break;

        leaveOut (vaguest, signals, layout, now);
    }
}

/** Makes one of two gliding sines that fade before they could be told apart. The model of a glide is not exact, and such a pair
   is its error. */
void joinTwins (const Signals& signals, Layout& layout, Projections& now)
{
    constexpr double closest = 0.7; // of the mean decay

    for (bool isJoined = true; isJoined;)
    {
        isJoined = false;
        const auto loudness = now.all.front().amplitudes.cwiseAbs().eval();

        for (Index j = 1; j < layout.sines && ! isJoined; ++j)
            for (Index k = 0; k < j && ! isJoined; ++k)
            {
                const double apart = std::abs (now.unknowns[layout.frequency (j)] - now.unknowns[layout.frequency (k)]);

                if (apart > closest * 0.5 * (now.unknowns[layout.decay (j)] + now.unknowns[layout.decay (k)]))
                    continue;

                leaveOut (loudness[j] < loudness[k] ? j : k, signals, layout, now);
                isJoined = true;
            }
    }
}

/** Weights by how the residue fades: room and wires are noise that dies away. Their logarithms have mean 0, so that likelihoods
    stay comparable. */
Eigen::ArrayXd weightsBy (const Eigen::VectorXcd& residue)
{
    constexpr Index block = 16; // samples
    const auto count = residue.size(), blocks = count / block;

    if (blocks < 3)
        return Eigen::ArrayXd::Ones (count);

    const double mean = residue.squaredNorm() / static_cast<double> (count);
    Eigen::ArrayXd level (blocks);

    for (Index b = 0; b < blocks; ++b)
        level[b] = std::log (residue.segment (b * block, block).squaredNorm() / block + 0.02 * mean + 1.0e-300);

    Eigen::ArrayXd weights (count);

    for (Index n = 0; n < count; ++n)
    {
        const double at = std::clamp ((static_cast<double> (n) + 0.5) / block - 0.5, 0.0, static_cast<double> (blocks - 1));
        const auto below = std::min (static_cast<Index> (at), blocks - 2);
        const double part = at - static_cast<double> (below);
        weights[n] = -0.5 * ((1.0 - part) * level[below] + part * level[below + 1]);
    }

    return (weights - weights.mean()).exp();
}

/** Fills in CommonSine::turn and CommonSine::clarity. What lies beside a sine, whether it was taken for fainter sines or is left,
   is measured by the sine's own shape at frequencies beside its own; what is white in it is in the pole's error already. */
void measureTurns (const Signals& signals, const Projections& now, std::vector<CommonSine>& sines)
{
    constexpr int beside = 4;        // places on either side
    constexpr double apart = 1.5;    // widths of the sine's line from place to place
    constexpr double farthest = 5.0; // Hz from place to place at most
    constexpr double fainter = 0.25; // energy of a sine that may be the room's answer, over the sine's
    const auto variances = now.variances();

    for (std::size_t s = 0; s < sines.size(); ++s)
    {
        const auto k = static_cast<Index> (s);
        double disturbed = 0.0, information = 0.0;

        for (std::size_t c = 0; c < now.all.size(); ++c)
        {
            const auto& channel = now.all[c];
            const double energy = channel.energyOf (k), white = variances[static_cast<Index> (c)];
            const double seconds = static_cast<double> (channel.left.size()) / signals.rate;
            const double width = -sines[s].pole.real() / modal::units::twoPi;
            const double step = std::clamp (apart * width, 1.0 / seconds, farthest);
            Eigen::VectorXcd others = channel.left;

            for (Index j = 0; j < channel.amplitudes.size(); ++j)
                if (j != k && channel.energyOf (j) < fainter * energy)
                    others += channel.amplitudes[j] * channel.exponentials.col (j);

            const Eigen::VectorXcd matched = channel.exponentials.col (k).normalized().conjugate().cwiseProduct (others);
            double power = 0.0; // mean of the places

            for (int place = -beside; place <= beside; ++place)
            {
                const Complex turn = std::polar (1.0, -modal::units::twoPi * place * step / signals.rate);
                Complex sum = 0.0, phasor = 1.0;

                for (Index n = 0; n < matched.size(); ++n, phasor *= turn)
                    sum += matched[n] * phasor;

                power += place == 0 ? 0.0 : std::norm (sum) / (2.0 * beside);
            }

            disturbed += energy / white * std::max (0.0, power / white - 1.0);
            information += energy / white;
        }

        sines[s].clarity = information;
        sines[s].turn = std::sqrt (disturbed) / std::max (information, 1.0e-300);
    }
}

} // namespace

CommonSines commonSines (const std::vector<Channel>& channels, double rate, int most, Effort effort)
{
    const auto shortest = shortestOf (channels);

    if (shortest < fewestSamples)
        return {};

    const auto told = std::min (most, static_cast<int> (shortest / samplesPerSine));
    const auto starts = polesBySubspace (channels, told);

    if (starts.empty())
        return {};

    Layout layout{ static_cast<Index> (starts.size()), static_cast<Index> (channels.size()),
                   std::any_of (channels.begin(), channels.end(), [] (const Channel& c) { return ! c.glide.isNone(); }) };
    Eigen::VectorXd start = Eigen::VectorXd::Zero (layout.size());

    for (Index k = 0; k < layout.sines; ++k)
    {
        const auto pole = std::log (starts[static_cast<std::size_t> (k)]) * rate;
        start[layout.decay (k)] = -pole.real();
        start[layout.frequency (k)] = pole.imag();
    }

    Signals signals{ channels, rate, {} };

    for (const auto& channel : channels)
        signals.weights.push_back (Eigen::ArrayXd::Ones (channel.samples.size()));

    auto now = settled (signals, layout, start);
    const auto prunedAndGrown = [&]
    {
        if (layout.hasGlide)
            prune (signals, layout, now);

        // Without a glide the subspace misses little, and what several strikes have left besides is the room.
        if (effort == Effort::thorough && (layout.hasGlide || channels.size() == 1))
            grow (signals, layout, now, told);
    };
    prunedAndGrown();

    if (effort == Effort::thorough)
    {
        for (std::size_t c = 0; c < channels.size(); ++c)
            signals.weights[c] = weightsBy (now.all[c].left);

        now = settled (signals, layout, now.unknowns);
        prunedAndGrown();

        if (layout.hasGlide)
            joinTwins (signals, layout, now);

        dropVague (signals, layout, now);
    }

    CommonSines found{ {}, now.badness() + static_cast<double> (layout.sines) * costOfSine (channels) };
    const Eigen::VectorXd variances = now.variances();
    const auto covariance = covarianceOf (now);
    const auto errorOf = [&] (Index unknown) { return std::sqrt (std::max (0.0, covariance (unknown, unknown))); };

    for (Index k = 0; k < layout.sines; ++k)
        found.sines.push_back ({ .pole = { -now.unknowns[layout.decay (k)], now.unknowns[layout.frequency (k)] },
                                 .poleError = errorOf (layout.frequency (k)),
                                 .decayError = errorOf (layout.decay (k)) });

    if (effort == Effort::thorough)
        measureTurns (signals, now, found.sines);

    for (Index c = 0; c < layout.channels; ++c)
    {
        const auto& channel = now.all[static_cast<std::size_t> (c)];
        const auto& glide = channels[static_cast<std::size_t> (c)].glide;
        const auto spread = channel.amplitudeVariances (variances[c], covariance);

        for (Index k = 0; k < layout.sines; ++k)
        {
            auto& sine = found.sines[static_cast<std::size_t> (k)];
            sine.amplitude.push_back (channel.amplitudes[k]);
            sine.amplitudeError.push_back (std::sqrt (std::max (0.0, 0.5 * spread[k])));
            sine.rise.push_back (0.0);
            sine.riseError.push_back (0.0);
            sine.riseDecay.push_back (glide.rate);

            if (! glide.isNone())
            {
                const double rise = glide.rise * std::exp (now.unknowns[layout.rise (c)]);
                const double share = 1.0 + now.unknowns[layout.share (k)];
                const auto i = layout.share (k), j = layout.rise (c);
                sine.rise.back() = rise * share;
                sine.riseDecay.back() *= std::exp (now.unknowns[layout.rate (c)]);
                sine.riseError.back() = rise * std::sqrt (std::max (0.0, covariance (i, i) + 2.0 * share * covariance (i, j) +
                                                                             share * share * covariance (j, j)));
            }
        }
    }

    return found;
}

void widenErrorsInRoom (const std::vector<CommonSine*>& sines)
{
    constexpr double loud = 0.01; // of the clearest: fainter ones are turned by noise
    double clearest = 0.0, usual = 0.0;
    std::vector<double> turns;

    for (const auto* sine : sines)
        clearest = std::max (clearest, sine->clarity);

    for (const auto* sine : sines)
        if (sine->clarity > loud * clearest)
            turns.push_back (sine->turn);

    if (! turns.empty())
    {
        const auto middle = turns.begin() + static_cast<std::ptrdiff_t> ((turns.size() - 1) / 2);
        std::nth_element (turns.begin(), middle, turns.end());
        usual = *middle;
    }

    for (auto* sine : sines)
    {
        const double larger = std::sqrt (1.0 + std::pow (std::max (sine->turn, usual), 2) * sine->clarity);
        sine->poleError *= larger;
        sine->decayError *= larger;
    }
}

double fewSinesResidue (const Eigen::VectorXcd& samples, double noiseVariance)
{
    constexpr Index window = 24; // samples
    constexpr Index fewest = 2, mostSines = 5;
    const Index rows = std::min (window, samples.size() / 3);

    if (rows <= mostSines)
        return 0.0;

    const auto hankel = hankelOf (samples, rows);
    const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXcd> solver (hankel * hankel.adjoint());
    const double energy = samples.squaredNorm(), noise = noiseVariance * static_cast<double> (samples.size());
    double sum = 0.0;

    for (Index sines = fewest; sines <= mostSines; ++sines)
    {
        const auto poles = polesOf (solver.eigenvectors(), sines);
        Eigen::MatrixXcd exponentials (samples.size(), static_cast<Index> (poles.size()));

        for (Index k = 0; k < exponentials.cols(); ++k)
        {
            const auto turn = std::log (poles[static_cast<std::size_t> (k)]);

            for (Index n = 0; n < samples.size(); ++n)
                exponentials (n, k) = std::exp (turn * static_cast<double> (n));
        }

        const double left =
            poles.empty() ? energy : (samples - exponentials * exponentials.colPivHouseholderQr().solve (samples)).squaredNorm();
        sum += std::log ((left + noise) / energy + 1.0e-9);
    }

    return sum / (mostSines - fewest + 1);
}

} // namespace listening
