#include "DrumModel.h"

#include "Bank.h"
#include "KernelDispatch.h"
#include "RadialCache.h"
#include "RadiationOfRings.h"
#include "WireRest.h"

#include "Modal/InputError.h"
#include "Modal/Units.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <tuple>
#include <utility>

namespace engine
{
namespace
{

constexpr int steps = 128; ///< of a basis function's table, from the centre to the rim

/** Coefficients below this share of a mode's largest are rounding errors. */
constexpr double leastShare = 1.0e-6;

/** A stick's shaft meets the hoop at an angle: this share of the force acts radially on the ring, the rest along the shell.
   Common practice, no source. */
constexpr double hoopBlowShare = 0.5;

/** Half of the contact width of a stick's tip on the film, m. Common practice, no source: a tip rounded to a radius of 4 mm
   that sinks in by a millimetre. */
constexpr double tipHalfWidth = 2.0e-3;

template <typename Scalar, typename Vector>
AlignedArray<Scalar> packed (const Vector& values)
{
    AlignedArray<Scalar> out (static_cast<std::size_t> (values.size()));
    for (Eigen::Index i = 0; i < values.size(); ++i)
        out[static_cast<std::size_t> (i)] = static_cast<Scalar> (values[i]);
    return out;
}

template <typename Scalar>
AlignedArray<Scalar> packedRows (const Eigen::MatrixXd& matrix)
{
    AlignedArray<Scalar> out;
    out.reserve (static_cast<std::size_t> (matrix.size()));
    for (Eigen::Index i = 0; i < matrix.rows(); ++i)
        for (Eigen::Index j = 0; j < matrix.cols(); ++j)
            out.push_back (static_cast<Scalar> (matrix (i, j)));
    return out;
}

/** Shapes, combinations × modes, in the order of CouplingClass::shapeIndex(). */
template <typename Scalar>
AlignedArray<Scalar> packedTiles (const Eigen::MatrixXd& matrix)
{
    AlignedArray<Scalar> out (static_cast<std::size_t> (matrix.size()));
    for (int i = 0; i < matrix.rows(); ++i)
        for (int k = 0; k < matrix.cols(); ++k)
            out[static_cast<std::size_t> (CouplingClass<Scalar>::shapeIndex (i, k, static_cast<int> (matrix.cols())))] =
                static_cast<Scalar> (matrix (i, k));
    return out;
}

/** Basis functions at the table's steps, plus one before the centre and one after the rim for the cubic, mirrored into the head.
 */
const std::vector<double>& radialSteps (const modal::BasisFunction& function)
{
    static RadialCache memo (
        []
        {
            std::vector<double> shares;
            for (int i = -1; i <= steps + 1; ++i)
                shares.push_back (static_cast<double> (i < 0 ? -i : i > steps ? 2 * steps - i : i) / steps);
            return shares;
        }());
    return memo (function);
}

void check (const DrumSetup& setup)
{
    modal::requireInRange (setup.sampleRate, { 22050.0, 192000.0, "Hz" }, "sample rate");
    modal::check (setup.wires);
    modal::check (setup.stick);
    modal::requireInRange (setup.batterStretch, { 0.0, 1.0e7, "N/m" }, "batter stretch resistance");
    modal::requireInRange (setup.resonantStretch, { 0.0, 1.0e7, "N/m" }, "resonant stretch resistance");
    modal::requireInRange (static_cast<double> (setup.microphones.size()), { 0.0, maxMicrophones, "" }, "microphones");
    const auto evenIn = [] (int value, int low, int high, const char* name)
    {
        modal::requireInRange (value, { static_cast<double> (low), static_cast<double> (high), "" }, name);
        if (value % 2 != 0)
            throw modal::InputError (name, std::to_string (value), "an even number");
    };
    evenIn (setup.wireDetail.strands, 2, 20, "wire detail strands");
    evenIn (setup.wireDetail.points, 4, 32, "wire detail points");
    modal::requireInRange (setup.wireDetail.modes, { 1.0, static_cast<double> (setup.wireDetail.points), "" },
                           "wire detail modes");
    for (const auto& microphone : setup.microphones)
        check (microphone, setup.modes.radius, setup.modes.depth, "microphone " + microphone.name);
}

} // namespace

template <typename Scalar>
BasicDrumModel<Scalar>::BasicDrumModel (const DrumSetup& setup) : drumSetup (setup)
{
    check (drumSetup);
    const Bank bank = buildBank (drumSetup);
    modal::requireInRange (bank.size(), { 1.0, static_cast<double> (maxModes), "" }, "modes of the drum and its wires");
    modal::requireInRange (basisSize(), { 1.0, static_cast<double> (maxModes), "" }, "basis functions of a head");

    gatherRecursions (bank);
    gatherWires (bank);
    gatherStrands (bank);
    gatherRings (bank);
    gatherSound (bank);
    gatherHeadShapes (bank);
    buildTables();
    sortFieldModes();
    buildStretch();
}

template <typename Scalar>
void BasicDrumModel<Scalar>::gatherRecursions (const Bank& bank)
{
    const auto values = [&] (auto member)
    {
        Eigen::VectorXd v (bank.size());
        for (int k = 0; k < bank.size(); ++k)
            v[k] = member (bank.entries[static_cast<std::size_t> (k)].recursion);
        return v;
    };
    const auto keepOf = values ([] (const ModalRecursion& r) { return r.keep; });
    const auto springOf = values ([] (const ModalRecursion& r) { return r.spring; });
    const auto driveOf = values ([] (const ModalRecursion& r) { return r.drive; });
    keep = packed<Scalar> (keepOf);
    spring = packed<Scalar> (springOf);
    drive = packed<Scalar> (driveOf);
    exactKeep = packed<double> (keepOf);
    exactSpring = packed<double> (springOf);
    exactDrive = packed<double> (driveOf);
    lossOfStep = packed<Scalar> (values ([] (const ModalRecursion& r) { return r.lossOfStep(); }));
}

template <typename Scalar>
void BasicDrumModel<Scalar>::gatherWires (const Bank& bank)
{
    classes = static_cast<int> (bank.classes.size());
    combinations = bank.combinations;
    if (classes == 0)
        return;
    const auto contactsOf = buildWireContacts (drumSetup, bank);
    modal::requireInRange (contactsOf.size(), { 1.0, static_cast<double> (maxContacts), "" }, "wire contacts");
    realContacts = bank.contactsInQuadrant * classes;
    stiffness = packed<Scalar> (contactsOf.stiffness);
    lossRate = packed<Scalar> (Eigen::VectorXd (contactsOf.stiffness * drumSetup.wires.contactLoss * 0.5 * drumSetup.sampleRate));
    contactResistance = static_cast<Scalar> (contactsOf.resistance * 0.5 * drumSetup.sampleRate);
    metric = packed<Scalar> (contactsOf.metric);
    restForce = packed<Scalar> (contactsOf.restForce);
    restCompression = packed<Scalar> (contactsOf.restCompression);
    for (std::size_t c = 0; c < bank.classes.size(); ++c)
    {
        shapes[c] = packedTiles<Scalar> (bank.classes[c].shapes);
        mobility[c] = packedRows<Scalar> (contactsOf.mobility[c]);
        coupling[c] = { bank.classes[c].first, bank.classes[c].count, shapes[c].data(), mobility[c].data() };
    }
    gatherForcePoints (bank);
}

template <typename Scalar>
void BasicDrumModel<Scalar>::gatherStrands (const Bank& bank)
{
    for (int k = 0; k < bank.size(); ++k)
        if (bank.entries[static_cast<std::size_t> (k)].kind == BankEntry::Kind::strand)
            strandBankModes.push_back (k);
    std::sort (strandBankModes.begin(), strandBankModes.end(),
               [&] (int a, int b)
               {
                   const auto key = [&] (int k)
                   {
                       const auto& entry = bank.entries[static_cast<std::size_t> (k)];
                       return std::tuple (entry.pair, entry.stringMode, entry.isOpposed);
                   };
                   return key (a) < key (b);
               });
}

template <typename Scalar>
void BasicDrumModel<Scalar>::gatherRings (const Bank& bank)
{
    for (int k = 0; k < bank.size(); ++k)
    {
        const auto& entry = bank.entries[static_cast<std::size_t> (k)];
        if (entry.kind != BankEntry::Kind::ring)
            continue;
        ringBankModes.push_back (k);
        const auto& ring = bank.rings[static_cast<std::size_t> (entry.ring)];
        if (! ring.belongsToShell)
            hoopTerms.push_back ({ k, ring.n, ring.isSine, hoopBlowShare * ring.amplitude });
    }
}

template <typename Scalar>
void BasicDrumModel<Scalar>::gatherSound (const Bank& bank)
{
    std::vector<ModalPressure> pressures;
    for (std::size_t m = 0; m < drumSetup.microphones.size(); ++m)
    {
        const auto& microphone = drumSetup.microphones[m];
        const auto& pressure = pressures.emplace_back (pressureAt (drumSetup.modes, microphone));
        delays[m] = pressure.delay;
        Eigen::VectorXd acceleration = Eigen::VectorXd::Zero (bank.size()), velocity = acceleration;
        for (int k = 0; k < bank.size(); ++k)
        {
            const auto& entry = bank.entries[static_cast<std::size_t> (k)];
            if (entry.kind == BankEntry::Kind::head)
            {
                acceleration[k] = pressure.acceleration[entry.drumMode];
                velocity[k] = pressure.velocity[entry.drumMode];
            }
            else if (entry.kind == BankEntry::Kind::ring)
                acceleration[k] = ringPressure (drumSetup.modes, bank.rings[static_cast<std::size_t> (entry.ring)], microphone);
        }
        pressureOfAcceleration[m] = packed<Scalar> (Eigen::VectorXd (acceleration * drumSetup.sampleRate * drumSetup.sampleRate));
        pressureOfVelocity[m] = packed<Scalar> (Eigen::VectorXd (velocity * 0.5 * drumSetup.sampleRate));
    }
    upper = upperBandOf (drumSetup, pressures);
}

template <typename Scalar>
void BasicDrumModel<Scalar>::gatherForcePoints (const Bank& bank)
{
    const auto& strands = *bank.strands;
    const int pairs = strands.pairs(), quadrantSize = strands.halfPoints() * pairs;
    const int stride = classes == 4 ? combinations : quadrantSize;
    const int neighbours = (strands.halfPoints() + maxForcePoints / 4 - 1) / (maxForcePoints / 4);
    for (int quadrant = 0; quadrant < 4; ++quadrant)
        for (int first = 0; first < strands.halfPoints(); first += neighbours)
        {
            const int last = std::min (first + neighbours, strands.halfPoints()) - 1;
            const double x = 0.5 * (strands.pointX (first) + strands.pointX (last));
            const double y = 0.5 * (strands.strandY (0) + strands.strandY (pairs - 1));
            wirePoints.push_back ({ quadrant < 2 ? x : -x, quadrant % 2 == 0 ? y : -y, quadrant * stride + first * pairs,
                                    (last - first + 1) * pairs });
        }
}

template <typename Scalar>
void BasicDrumModel<Scalar>::gatherHeadShapes (const Bank& bank)
{
    for (int k = 0; k < bank.size(); ++k)
    {
        const auto& entry = bank.entries[static_cast<std::size_t> (k)];
        if (entry.kind != BankEntry::Kind::head)
            continue;
        const auto batter = drumSetup.modes.batter.col (entry.drumMode), resonant = drumSetup.modes.resonant.col (entry.drumMode);
        const double least = leastShare * std::max (batter.cwiseAbs().maxCoeff(), resonant.cwiseAbs().maxCoeff());
        const auto matters = [&] (int b) { return std::max (std::abs (batter[b]), std::abs (resonant[b])) > least; };
        int first = 0, end = basisSize();
        while (first < end && ! matters (first))
            ++first;
        while (end > first && ! matters (end - 1))
            --end;
        const bool isAirMode = drumSetup.modes.modes[static_cast<std::size_t> (entry.drumMode)].isAirMode;
        headBankModes.push_back ({ k, entry.drumMode, first, end - first, isAirMode });
        for (int b = first; b < end; ++b)
            batterShapes.push_back (static_cast<Scalar> (batter[b]));
    }
}

template <typename Scalar>
void BasicDrumModel<Scalar>::buildTables()
{
    radialTable.reserve (static_cast<std::size_t> (basisSize() * (steps + 3)));
    for (const auto& function : drumSetup.modes.basis)
    {
        const auto& values = radialSteps (function);
        for (int i = -1; i <= steps + 1; ++i)
        {
            // J_m is even or odd about the centre, and nearly odd about its zero at the rim.
            const double sign = i < 0 ? (function.m % 2 == 0 ? 1.0 : -1.0) : i > steps ? -1.0 : 1.0;
            radialTable.push_back (static_cast<float> (sign * values[static_cast<std::size_t> (i + 1)] / drumSetup.modes.radius));
        }
    }
}

/** All basis functions at a point, 1/m. */
template <typename Scalar>
void BasicDrumModel<Scalar>::basisAt (double r, double theta, Scalar* values) const noexcept
{
    const double place = std::clamp (r / drumSetup.modes.radius, 0.0, 1.0) * steps;
    const int cell = std::min (static_cast<int> (place), steps - 1);
    const double t = place - cell;
    int order = 0;
    double cosine = 1.0, sine = 0.0;
    for (int i = 0; i < basisSize(); ++i)
    {
        const auto& function = drumSetup.modes.basis[static_cast<std::size_t> (i)];
        if (function.m != order)
        {
            order = function.m;
            cosine = std::cos (order * theta);
            sine = std::sin (order * theta);
        }
        // Cubic interpolation over four points of the table.
        const float* p = radialTable.data() + i * (steps + 3) + cell;
        const double a = p[0], b = p[1], c = p[2], d = p[3];
        const double radial = b + 0.5 * t * (c - a + t * (2.0 * a - 5.0 * b + 4.0 * c - d + t * (3.0 * (b - c) + d - a)));
        values[i] = static_cast<Scalar> (radial * (function.parity == modal::Parity::sine ? sine : cosine));
    }
}

template <typename Scalar>
auto BasicDrumModel<Scalar>::filmUnderTip() const noexcept -> FilmUnderTip
{
    const double tension = drumSetup.tensions.batter, density = drumSetup.batterDensity;
    const double highest = std::min (drumSetup.modes.highestFrequency, highestShareOfRate * drumSetup.sampleRate);
    if (! (tension > 0.0 && density > 0.0 && highest > 0.0))
        return {};
    const double waveNumber = modal::units::twoPi * highest * std::sqrt (density / tension);
    // On a slack film with modes to high frequencies little is unresolved; the limit keeps the rest stiff.
    const double depth = std::max (0.1, std::log (2.0 / (waveNumber * tipHalfWidth)) - 0.57722 + 0.5);
    const double springs = modal::units::twoPi * tension / depth;
    return { springs, filmContactResistance (springs, tension, highest) };
}

template <typename Scalar>
void BasicDrumModel<Scalar>::headShape (double r, double theta, Scalar* to) const noexcept
{
    std::array<Scalar, maxModes> values;
    basisAt (r, theta, values.data());
    std::fill_n (to, keep.size(), Scalar (0));
    using Run = Eigen::Map<const Eigen::Matrix<Scalar, Eigen::Dynamic, 1>>;
    const Scalar* shape = batterShapes.data();
    for (const auto& mode : headBankModes)
    {
        to[mode.bankMode] = Run (shape, mode.functions).dot (Run (values.data() + mode.firstFunction, mode.functions));
        shape += mode.functions;
    }
}

template <typename Scalar>
void BasicDrumModel<Scalar>::hoopShape (double theta, Scalar* to) const noexcept
{
    std::fill_n (to, keep.size(), Scalar (0));
    for (const auto& term : hoopTerms)
        to[term.bankMode] =
            static_cast<Scalar> (term.amplitude * (term.isSine ? std::sin (term.n * theta) : std::cos (term.n * theta)));
}

/** ∫|∇w|² dA of each head. The square of each mode is exact: the gradients of the basis functions are orthogonal, with (j_mn/a)²
   each. Products of two modes, which only modulate the tension at the sums and differences of their frequencies, are left out. */
template <typename Scalar>
void BasicDrumModel<Scalar>::buildStretch()
{
    for (auto& gradient : stretchGradient)
        gradient.assign (keep.size(), Scalar (0));
    for (const auto& mode : headBankModes)
    {
        double batter = 0.0, resonant = 0.0;
        for (int b = mode.firstFunction; b < mode.firstFunction + mode.functions; ++b)
        {
            const double waveNumber = drumSetup.modes.basis[static_cast<std::size_t> (b)].zero / drumSetup.modes.radius;
            batter += std::pow (waveNumber * drumSetup.modes.batter (b, mode.drumMode), 2);
            resonant += std::pow (waveNumber * drumSetup.modes.resonant (b, mode.drumMode), 2);
        }
        stretchGradient[0][static_cast<std::size_t> (mode.bankMode)] = static_cast<Scalar> (batter);
        stretchGradient[1][static_cast<std::size_t> (mode.bankMode)] = static_cast<Scalar> (resonant);
    }

    constexpr int pack = tileModes;
    for (int k = 0; k < modes(); k += pack)
    {
        const auto isZero = [] (Scalar x) { return x == Scalar (0); };
        const bool isEmpty = std::all_of (stretchGradient[0].begin() + k, stretchGradient[0].begin() + k + pack, isZero) &&
                             std::all_of (stretchGradient[1].begin() + k, stretchGradient[1].begin() + k + pack, isZero);
        if (isEmpty)
            continue;
        // Modes of one class are adjacent, so there are few ranges; if there are more than fit, the last one covers the rest.
        const bool continues =
            ! stretchSpans.empty() && (stretchSpans.back().second == k || stretchSpans.size() == maxStretchSpans);
        if (continues)
            stretchSpans.back().second = k + pack;
        else
            stretchSpans.emplace_back (k, k + pack);
    }
}

template <typename Scalar>
void BasicDrumModel<Scalar>::toField (const Scalar* modesIn, double* field) const noexcept
{
    Eigen::Map<Eigen::VectorXd> batter (field, basisSize()), resonant (field + basisSize(), basisSize());
    batter.setZero();
    resonant.setZero();
    for (const auto& mode : headBankModes)
    {
        if (mode.isAirMode)
            continue;
        const auto amplitude = static_cast<double> (modesIn[mode.bankMode]);
        const auto run = [&] (auto&& vector) { return vector.segment (mode.firstFunction, mode.functions); };
        run (batter) += amplitude * run (drumSetup.modes.batter.col (mode.drumMode));
        run (resonant) += amplitude * run (drumSetup.modes.resonant.col (mode.drumMode));
    }
}

template <typename Scalar>
void BasicDrumModel<Scalar>::fold (std::array<double, maxCouplingClasses>& values) const noexcept
{
    if (classes == 4)
        values = { 0.5 * (values[0] + values[1] + values[2] + values[3]), 0.5 * (values[0] - values[1] + values[2] - values[3]),
                   0.5 * (values[0] + values[1] - values[2] - values[3]), 0.5 * (values[0] - values[1] - values[2] + values[3]) };
}

template <typename Scalar>
void BasicDrumModel<Scalar>::contactsMovedBy (const Scalar* position, Scalar* to) const noexcept
{
    using Tile = Eigen::Array<Scalar, tileModes, 1>;
    const int n = combinations;
    for (int i = 0; i < n; ++i)
    {
        std::array<double, maxCouplingClasses> sums{};
        for (int c = 0; c < classes; ++c)
        {
            const auto& group = coupling[static_cast<std::size_t> (c)];
            Tile sum = Tile::Zero();
            for (int k = 0; k < group.modes; k += tileModes)
                sum += Eigen::Map<const Tile> (group.shapes + group.shapeIndex (i, k, group.modes)) *
                       Eigen::Map<const Tile> (position + group.firstMode + k);
            sums[static_cast<std::size_t> (c)] = static_cast<double> (sum.sum());
        }
        fold (sums);
        for (int c = 0; c < classes; ++c)
            to[c * n + i] = static_cast<Scalar> (sums[static_cast<std::size_t> (c)]);
    }
}

template <typename Scalar>
void BasicDrumModel<Scalar>::compressionsAt (const Scalar* position, Scalar* to) const noexcept
{
    contactsMovedBy (position, to);
    for (std::size_t i = 0; i < restCompression.size(); ++i)
        to[i] += restCompression[i];
}

template <typename Scalar>
void BasicDrumModel<Scalar>::connect (KernelView<Scalar>& view) const noexcept
{
    view.modes = modes();
    view.keep = keep.data();
    view.spring = spring.data();
    view.drive = drive.data();
    view.lossOfStep = lossOfStep.data();
    view.classes = classes;
    view.combinations = combinations;
    for (int c = 0; c < classes; ++c)
        view.coupling[c] = coupling[static_cast<std::size_t> (c)];
    view.stiffness = stiffness.data();
    view.lossRate = lossRate.data();
    view.contactResistance = contactResistance;
    view.metric = metric.data();
    view.forcePointCount = static_cast<int> (wirePoints.size());
    for (std::size_t p = 0; p < wirePoints.size(); ++p)
    {
        const auto first = restForce.begin() + wirePoints[p].first;
        view.forcePoints[p] = { wirePoints[p].first, wirePoints[p].count,
                                std::accumulate (first, first + wirePoints[p].count, Scalar (0)) };
    }
    view.restForce = restForce.data();
    view.restCompression = restCompression.data();
    // Berger: E·h/(1-ν²) times the mean of |∇w|²/2 over the head.
    const double twiceArea = 2.0 * modal::units::pi * drumSetup.modes.radius * drumSetup.modes.radius;
    const bool hasResonant = drumSetup.modes.bottom == modal::Bottom::head;
    view.tension.rise[0] = drumSetup.batterStretch / twiceArea;
    view.tension.rise[1] = hasResonant ? drumSetup.resonantStretch / twiceArea : 0.0;
    view.tension.base[0] = drumSetup.tensions.batter;
    view.tension.base[1] = drumSetup.tensions.resonant;
    for (std::size_t head = 0; head < 2; ++head)
        view.tension.gradient[head] = stretchGradient[head].data();
    view.tension.spanCount = static_cast<int> (stretchSpans.size());
    for (std::size_t i = 0; i < stretchSpans.size(); ++i)
        view.tension.spans[i] = { stretchSpans[i].first, stretchSpans[i].second };
    view.microphones = microphones();
    for (int m = 0; m < microphones(); ++m)
    {
        view.pressureOfAcceleration[m] = pressureOfAcceleration[static_cast<std::size_t> (m)].data();
        view.pressureOfVelocity[m] = pressureOfVelocity[static_cast<std::size_t> (m)].data();
    }
}

template <typename Scalar>
double BasicDrumModel<Scalar>::energyOf (std::size_t k, const Scalar* position, const Scalar* step) const noexcept
{
    return ModalRecursion{ exactKeep[k], exactSpring[k], exactDrive[k] }.energy (static_cast<double> (position[k]),
                                                                                 static_cast<double> (step[k]));
}

template <typename Scalar>
double BasicDrumModel<Scalar>::modalEnergy (const Scalar* position, const Scalar* step) const noexcept
{
    double sum = 0.0;
    for (std::size_t k = 0; k < keep.size(); ++k)
        sum += energyOf (k, position, step);
    return sum;
}

template <typename Scalar>
bool BasicDrumModel<Scalar>::hasModalEnergy (const Scalar* position, const Scalar* step, double least) const noexcept
{
    double sum = 0.0;
    for (std::size_t k = 0; k < keep.size() && sum <= least; ++k)
        sum += energyOf (k, position, step);
    return sum > least;
}

template <typename Scalar>
double BasicDrumModel<Scalar>::contactEnergy (const Scalar* compression, const Scalar* before) const noexcept
{
    double sum = 0.0;
    for (std::size_t i = 0; i < stiffness.size(); ++i)
    {
        const double K = static_cast<double> (stiffness[i]), rest = static_cast<double> (restCompression[i]);
        const double held = static_cast<double> (restForce[i]);
        const auto above = [&] (double c)
        {
            const double in = std::max (c, 0.0), inAtRest = std::max (rest, 0.0);
            return 0.5 * K * (in * in - inAtRest * inAtRest) - held * (c - rest);
        };
        sum += 0.5 * (above (static_cast<double> (compression[i])) + above (static_cast<double> (before[i])));
    }
    return sum;
}

template class BasicDrumModel<float>;
template class BasicDrumModel<double>;

} // namespace engine
