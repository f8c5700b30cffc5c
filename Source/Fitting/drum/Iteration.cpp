#include "Iteration.h"

#include "Added.h"
#include "Fitting/common/Errors.h"
#include "Fitting/common/HeadMass.h"
#include "Fitting/common/Statistics.h"
#include "Modal/InputError.h"
#include "Modal/Tuning.h"
#include "Modal/Units.h"
#include "Modal/pitch/Note.h"

#include <Eigen/Cholesky>
#include <Eigen/LU>

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

namespace fitting
{
namespace
{

constexpr double usualInterval = 350.0, intervalSpread = 500.0; // cents, see intervalPrior()
constexpr double fromNoise = 0.05;                              // share of lines from noise
constexpr double range = 5000.0;                                // cents over which those are spread
constexpr int ordersInBand = 9;
constexpr double freeTension = 1.0;                                                      // ln: as good as unknown
constexpr std::array<double, 7> widthsFromAfar{ 40.0, 30.0, 20.0, 12.0, 8.0, 8.0, 8.0 }; // cents, pass by pass
constexpr std::array<double, 3> widthsNearby{ 8.0, 8.0, 8.0 };
constexpr double pairError = 3.0; // cents: a line of m = 1 lies anywhere between two partners, which uneven lugs split most
constexpr double ownSplit = 0.25; // of the model's error: partners of any m, split by what else is uneven

/** Probability density a cent of a line under one mode. */
double density (const Line& line, const ExpectedMode& mode, double width, double decayError)
{
    const double off = modal::centsBetween (mode.mode.frequency, line.frequency) / width;

    if (std::abs (off) > 6.0)
        return 0.0;

    const double slower = std::log (line.decay / mode.mode.decay.total()) / decayError;
    return mode.audibility * std::exp (-0.5 * (off * off + slower * slower)) / (rootTwoPi * width);
}

/** Cents, standard deviation of a line by itself. */
double errorOf (const Line& line, const modal::Mode& mode, double modelError)
{
    const double heard = centsPerShare * std::hypot (line.error, roomTurn * line.decay / modal::units::twoPi) / line.frequency;
    return std::hypot (heard, mode.m == 1 ? pairError : 0.0, mode.m > 0 ? ownSplit * modelError : 0.0);
}

/** Evidence with a width for each line and mode. */
template <typename Width>
double evidenceWith (const std::vector<Line>& lines, const std::vector<ExpectedMode>& modes, Width width, double decayError)
{
    double sum = 0.0;

    for (const auto& line : lines)
    {
        double all = 0.0;

        for (const auto& mode : modes)
            all += density (line, mode, width (line, mode.mode), decayError);

        sum += line.weight() * std::log (fromNoise + (1.0 - fromNoise) * all * range);
    }

    return sum;
}

/** ln of the probability that the modes that should be loud are all silent where no line is near. Places of strike and microphone
    are unknown, so each is silent now and then. Modes (0,n) fade too soon to count. */
double silence (const std::vector<Line>& lines, const std::vector<ExpectedMode>& modes, double modelError)
{
    constexpr double silent = -1.0;    // ln of how often a loud mode is not heard; common practice, no source
    constexpr double clear = 4.0;      // times as loud as the faintest line
    constexpr double mostNeeded = 0.5; // of the loudest
    constexpr double near = 3.0;       // standard deviations
    constexpr double vague = 5.0;      // cents: a model that is surer tells tunings apart by cents
    double loudest = 0.0, faintest = 1.0, sum = 0.0;

    if (modelError < vague)
        return 0.0;

    for (const auto& mode : modes)
        loudest = std::max (loudest, mode.audibility);

    for (const auto& line : lines)
        faintest = std::min (faintest, line.loudness);

    for (const auto& mode : modes)
    {
        const double loudness = std::pow (mode.audibility / loudest, 2);
        const auto isNear = [&] (const Line& line)
        { return std::abs (modal::centsBetween (mode.mode.frequency, line.frequency)) < near * modelError; };

        if (mode.mode.m > 0 && mode.mode.frequency < lines.back().frequency &&
            loudness > std::min (clear * faintest, mostNeeded) && std::none_of (lines.begin(), lines.end(), isNear))
            sum += silent;
    }

    return sum;
}

double highestOf (const std::vector<Line>& lines)
{
    constexpr double above = 1.08;
    return std::clamp (above * lines.back().frequency, 300.0, 1500.0);
}

} // namespace

double evidence (const std::vector<Line>& lines, const std::vector<ExpectedMode>& modes, double width, double decayError)
{
    return evidenceWith (
        lines, modes, [width] (const Line&, const modal::Mode&) { return width; }, decayError);
}

double intervalPrior (double batterNote, double resonantNote)
{
    return -0.5 * std::pow ((modal::centsBetween (batterNote, resonantNote) - usualInterval) / intervalSpread, 2);
}

double weightOf (const std::vector<Line>& lines)
{
    double sum = 0.0;

    for (const auto& line : lines)
        sum += line.weight();

    return sum;
}

DrumIteration::DrumIteration (const DrumFitSetup& fitSetup, const std::vector<Line>& heard, double batterTension,
                              double resonantTension)
    : setup (&fitSetup), lines (&heard)
{
    state << std::log (batterTension), std::log (resonantTension), 0.0, 0.0;
    start = state;
    const double mass = std::max (setup->massTolerance, 1.0e-6);
    prior << freeTension, freeTension, mass, mass;
}

bool DrumIteration::run (Reach reach)
{
    const std::span<const double> widths = reach == Reach::far ? std::span<const double> (widthsFromAfar) : widthsNearby;

    try
    {
        for (const double width : widths)
        {
            observe (std::max (width, setup->modelError));

            if (assigned.size() < 2)
                return false;

            solveStep();
            constexpr double longestStep = 0.15;
            const DrumState move = start + posterior.mean - state;
            state += move * std::min (1.0, longestStep / std::max (move.cwiseAbs().maxCoeff(), 1.0e-12));
        }

        observe (std::max (widths.back(), setup->modelError));
        solveStep();
        added = evidenceOfAdded (*this);
        return ! assigned.empty();
    }
    catch (const modal::InputError&)
    {
        return false;
    }
}

double DrumIteration::plausibility() const
{
    double sum = closeness + tuningPrior + added - 0.5 * state.tail<2>().cwiseQuotient (prior.tail<2>()).squaredNorm();

    for (const auto& note : notes)
        sum -= 0.5 * std::pow (note.cents / std::hypot (note.error, setup->modelError), 2);

    return sum;
}

double DrumIteration::weight() const
{
    const double room = posterior.covariance.topLeftCorner<2, 2>().determinant();
    return plausibility() + 0.5 * std::log (std::max (room, 1.0e-20));
}

Eigen::Matrix4d DrumIteration::covariance() const
{
    return asStated (posterior.covariance);
}

Eigen::Matrix4d DrumIteration::freeCovariance() const
{
    DrumState free = prior;
    free.head<2>().setConstant (freeTension);
    Eigen::Matrix4d information = posterior.information;
    information.diagonal() += free.cwiseAbs2().cwiseInverse();
    return asStated (information.inverse());
}

Eigen::Matrix4d DrumIteration::asStated (const Eigen::Matrix4d& covariance) const
{
    constexpr double byChoice = 1.05;
    return covariance * std::pow (byChoice * std::max (1.0, misfit), 2);
}

modal::DrumSpec DrumIteration::drumOfState() const
{
    return withHeadMass (withHeadMass (setup->drum, modal::HeadSide::batter, std::exp (state[2])), modal::HeadSide::resonant,
                         std::exp (state[3]));
}

void DrumIteration::observe (double width)
{
    const auto drum = drumOfState();
    modal::check (drum);
    DrumModel model (drum, highestOf (*lines), ordersInBand);
    const auto modes = model.modesAt (std::exp (state[0]), std::exp (state[1]));
    evidence = fitting::evidence (*lines, modes, width, setup->decayError);
    closeness = evidenceWith (
                    *lines, modes,
                    [this] (const Line& line, const modal::Mode& mode)
                    { return std::hypot (errorOf (line, mode, setup->modelError), setup->modelError); },
                    setup->decayError) +
                silence (*lines, modes, setup->modelError);
    notes.clear();
    compareNote (modal::HeadSide::batter, setup->batterNote);

    if (drum.hasResonantHead())
    {
        compareNote (modal::HeadSide::resonant, setup->resonantNote);
        const double batterNote = modal::tapNote (drum, modal::HeadSide::batter, std::exp (state[0]));
        const double resonantNote = modal::tapNote (drum, modal::HeadSide::resonant, std::exp (state[1]));
        interval = modal::centsBetween (batterNote, resonantNote);
        tuningPrior = intervalPrior (batterNote, resonantNote);
    }

    assigned.clear();

    for (const auto& line : *lines)
        if (auto one = assignmentOf (line, modes, width))
            assigned.push_back (std::move (*one));
}

/** The likeliest mode of a line. Two of the same order that lie too close to be told apart, as those of equal heads do, count as
   one between them. */
std::optional<Assignment> DrumIteration::assignmentOf (const Line& line, const std::vector<ExpectedMode>& modes,
                                                       double width) const
{
    constexpr double alike = 1.5; // standard deviations of a mode
    double all = fromNoise / range, most = 0.0;
    const ExpectedMode* likeliest = nullptr;

    for (const auto& mode : modes)
    {
        const double here = density (line, mode, width, setup->decayError);
        all += here;

        if (here > most)
        {
            most = here;
            likeliest = &mode;
        }
    }

    if (likeliest == nullptr)
        return std::nullopt;

    Assignment one{ &line, *likeliest, 0.0, 0.0, errorOf (line, likeliest->mode, setup->modelError) };
    one.mode.gradient.setZero();

    for (const auto& mode : modes)
        if (mode.mode.m == likeliest->mode.m &&
            std::abs (modal::centsBetween (mode.mode.frequency, likeliest->mode.frequency)) < alike * setup->modelError)
        {
            const double here = density (line, mode, width, setup->decayError);
            one.share += here;
            one.cents += here * modal::centsBetween (mode.mode.frequency, line.frequency);
            one.mode.gradient += here * mode.gradient;
        }

    if (one.share < 0.5 * all)
        return std::nullopt;

    one.cents /= one.share;
    one.mode.gradient /= one.share;
    one.share /= all;
    return one;
}

void DrumIteration::compareNote (modal::HeadSide side, const std::optional<Estimate>& read)
{
    if (! read)
        return;

    constexpr double step = 0.01;
    const auto drum = drumOfState();
    const int head = side == modal::HeadSide::batter ? 0 : 1;
    const double tension = std::exp (state[head]), note = modal::tapNote (drum, side, tension);
    ReadNote compared{ .cents = modal::centsBetween (note, read->value), .error = centsPerShare * read->error / read->value };
    compared.mode.m = compared.mode.n = 1;
    compared.mode.frequency = note;
    (head == 0 ? compared.mode.shares.batter : compared.mode.shares.resonant) = 1.0;
    compared.gradient.setZero();
    compared.gradient[head] = std::log (modal::tapNote (drum, side, tension * (1.0 + step)) / note) / std::log1p (step);
    compared.gradient[2 + head] = -compared.gradient[head]; // nearly: the air's mass stays
    notes.push_back (compared);
}

/** The posterior of the change since the start, about which the prior is centred, with what is usual of the interval: a head that
   is hardly heard is not left anywhere between slack and yield. Errors of the model are correlated, those of the lines are not. A
   line of little weight counts as one with a large error of its own. The model's error stays as it is: two lines of one mode
   share it, and if it were larger in one of them, their difference would seem to measure it, and the tensions would come out far
   too sure. */
void DrumIteration::solveStep()
{
    const auto heard = static_cast<Eigen::Index> (assigned.size()),
               observations = heard + static_cast<Eigen::Index> (notes.size());
    const auto rows = observations + (setup->drum.hasResonantHead() ? 1 : 0);
    Eigen::MatrixXd jacobian (rows, state.size());
    Eigen::VectorXd observed (rows), ownVariance (rows);
    std::vector<modal::Mode> modes;
    const double shared = std::pow (setup->modelError, 2);

    for (Eigen::Index i = 0; i < observations; ++i)
    {
        const auto* one = i < heard ? &assigned[static_cast<std::size_t> (i)] : nullptr;
        const auto* note = one == nullptr ? &notes[static_cast<std::size_t> (i - heard)] : nullptr;
        jacobian.row (i) = centsPerShare * (one != nullptr ? one->mode.gradient : note->gradient).transpose();
        observed[i] = (one != nullptr ? one->cents : note->cents) + jacobian.row (i).dot (state - start);
        const double weight = one != nullptr ? one->share * one->line->weight() : 1.0;
        ownVariance[i] = (shared + std::pow (one != nullptr ? one->error : note->error, 2)) / weight - shared;
        modes.push_back (one != nullptr ? one->mode.mode : note->mode);
    }

    Eigen::MatrixXd covariance = Eigen::MatrixXd::Zero (rows, rows);
    covariance.topLeftCorner (observations, observations) = shared * errorCorrelation (modes);

    if (rows > observations)
    {
        const DrumState byTensions{ -0.5, 0.5, 0.0, 0.0 }; // tap notes go with the root of tension, nearly
        jacobian.row (observations) = centsPerShare * byTensions.transpose();
        observed[observations] = usualInterval - interval + jacobian.row (observations).dot (state - start);
        ownVariance[observations] = intervalSpread * intervalSpread;
    }

    covariance.diagonal() += ownVariance;

    // Rows that are independent and have unit variance.
    const Eigen::LLT<Eigen::MatrixXd> root (covariance);
    const Eigen::MatrixXd whiteJacobian = root.matrixL().solve (jacobian);
    const Eigen::VectorXd white = root.matrixL().solve (observed);
    const auto found = RobustPosterior::of (whiteJacobian, white, Eigen::VectorXd::Ones (rows), prior, observations);
    posterior = found.posterior;
    misfit = std::sqrt (found.squares / static_cast<double> (std::max<Eigen::Index> (observations, 1)));
}

} // namespace fitting
