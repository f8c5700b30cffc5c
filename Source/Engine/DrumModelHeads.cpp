// How strokes and tension act on the modes of the heads and the hoop.

#include "Bank.h"
#include "DrumModel.h"
#include "RadialCache.h"
#include "WireRest.h"

#include "Modal/Units.h"
#include "Modal/heads/Head.h"
#include "Modal/mathematics/Bessel.h"

#include <algorithm>
#include <cmath>

namespace engine
{
namespace
{

constexpr int steps = 128; ///< of a basis function's table, from the centre to the rim

/** Coefficients below this share of a mode's largest are rounding errors. */
constexpr double leastShare = 1.0e-6;

/** Radius of the ring round a tip against which the film's local stretch is counted, m. A wave crosses it in a third of a
    millisecond; within it the film is taken to follow the tip at once. */
constexpr double stretchRing = 30.0e-3;

/** Under a hard round tip film bends over √(bending stiffness/tension) and wraps round the tip only under more than some 15 N. An
   even load with this share of that as its half width makes nearly the dent of a point. */
constexpr double sharpestBend = 0.6;

/** Of the film's short waves, against critical damping. */
constexpr double leastDamping = 0.03;

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

} // namespace

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
        // A wave's mean over the round patch on which the tip bears.
        const double across = function.zero / drumSetup.modes.radius * drumSetup.stick.tipHalfWidth;
        const double overTip = across > 1.0e-6 ? 2.0 * modal::besselJ (1, across) / across : 1.0;
        for (int i = -1; i <= steps + 1; ++i)
        {
            // J_m is even or odd about the centre, and nearly odd about its zero at the rim.
            const double sign = i < 0 ? (function.m % 2 == 0 ? 1.0 : -1.0) : i > steps ? -1.0 : 1.0;
            radialTable.push_back (
                static_cast<float> (sign * overTip * values[static_cast<std::size_t> (i + 1)] / drumSetup.modes.radius));
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
double BasicDrumModel<Scalar>::halfWidthUnderTip() const
{
    const auto& stick = drumSetup.stick;
    const double bends = std::sqrt (drumSetup.batterBending / drumSetup.tensions.batter);
    return bends > 0.0 ? std::min (stick.tipHalfWidth, std::max (stick.tipFlattens, sharpestBend * bends)) : stick.tipHalfWidth;
}

template <typename Scalar>
void BasicDrumModel<Scalar>::buildFilmUnderTip()
{
    const double tension = drumSetup.tensions.batter, density = drumSetup.batterDensity, rate = drumSetup.sampleRate;
    const double highest = std::min (drumSetup.modes.highestFrequency, highestShareOfRate * rate);
    if (! (tension > 0.0 && density > 0.0 && highest > 0.0))
        return;
    const double longest = modal::units::twoPi * highest * std::sqrt (density / tension); // wave number
    // On a slack film with modes to high frequencies little is left; the limit keeps the rest stiff.
    const double depth = std::max (0.1, std::log (2.0 / (longest * halfWidthUnderTip())) - 0.57722 + 0.5);
    filmWaves.count = std::clamp (static_cast<int> (std::ceil (3.0 * depth)), 1, maxFilmWaves);
    const double narrowest = 2.0 * depth / (filmWaves.count * (filmWaves.count + 1.0));
    double done = 0.0;
    for (int i = 0; i < filmWaves.count; ++i)
    {
        auto& wave = filmWaves.wave[static_cast<std::size_t> (i)];
        const double width = (i + 1.0) * narrowest, damping = std::max (leastDamping, 0.5 * width);
        const double k = longest * std::exp (done + 0.5 * width), pull = tension + drumSetup.batterBending * k * k;
        done += width;
        wave.frequency = std::min (k * std::sqrt (pull / density) / modal::units::twoPi, highestFilmShare * rate);
        const double omega = modal::units::twoPi * wave.frequency;
        wave.decay = damping * omega;
        wave.shape = std::sqrt (width / (modal::units::twoPi * pull) * (1.0 + damping * damping)) * omega;
    }
}

/** A wave's mean over a ring round a place is J0(wave number × radius) times its value there, whatever its order. */
template <typename Scalar>
void BasicDrumModel<Scalar>::buildStretchUnderTip()
{
    ringShare.assign (static_cast<std::size_t> (basisSize()), Scalar (0));
    if (drumSetup.batterStretch <= 0.0 || filmWaves.count == 0)
        return;
    modal::DentedFilm film;
    film.tension = drumSetup.tensions.batter;
    film.stretchStiffness = drumSetup.batterStretch * (1.0 - modal::Film::poissonsRatio * modal::Film::poissonsRatio);
    film.patchRadius = drumSetup.stick.tipHalfWidth;
    film.ringRadius = std::max (stretchRing, 2.0 * film.patchRadius);
    localStretch = modal::localStretch (film);
    for (std::size_t b = 0; b < ringShare.size(); ++b)
        ringShare[b] =
            static_cast<Scalar> (modal::besselJ (0, drumSetup.modes.basis[b].zero / drumSetup.modes.radius * film.ringRadius));
}

template <typename Scalar>
void BasicDrumModel<Scalar>::headShape (double r, double theta, Scalar* to) const noexcept
{
    std::array<Scalar, maxModes> values;
    basisAt (r, theta, values.data());
    shapeOf (values.data(), to);
}

template <typename Scalar>
void BasicDrumModel<Scalar>::stretchShape (double r, double theta, Scalar* to) const noexcept
{
    std::array<Scalar, maxModes> values;
    basisAt (r, theta, values.data());
    for (std::size_t b = 0; b < ringShare.size(); ++b)
        values[b] *= ringShare[b] - Scalar (1);
    shapeOf (values.data(), to);
}

/** The modes' motion for these values of the basis functions. */
template <typename Scalar>
void BasicDrumModel<Scalar>::shapeOf (const Scalar* values, Scalar* to) const noexcept
{
    std::fill_n (to, keep.size(), Scalar (0));
    using Run = Eigen::Map<const Eigen::Matrix<Scalar, Eigen::Dynamic, 1>>;
    const Scalar* shape = batterShapes.data();
    for (const auto& mode : headBankModes)
    {
        to[mode.bankMode] = Run (shape, mode.functions).dot (Run (values + mode.firstFunction, mode.functions));
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

template <typename Scalar>
void BasicDrumModel<Scalar>::toField (const Scalar* modesIn, double* field) const noexcept
{
    Eigen::Map<Eigen::VectorXd> batter (field, basisSize()), resonant (field + basisSize(), basisSize());
    batter.setZero();
    resonant.setZero();
    if (drumSetup.modes.size() == 0) // a model that was read
        return;
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

template void BasicDrumModel<double>::buildFilmUnderTip();
template void BasicDrumModel<float>::buildFilmUnderTip();
template void BasicDrumModel<double>::buildStretch();
template void BasicDrumModel<double>::buildTables();
template void BasicDrumModel<double>::gatherHeadShapes (const Bank&);
template void BasicDrumModel<double>::buildStretchUnderTip();
template void BasicDrumModel<float>::buildStretchUnderTip();
template void BasicDrumModel<double>::stretchShape (double, double, double*) const noexcept;
template void BasicDrumModel<float>::stretchShape (double, double, float*) const noexcept;
template void BasicDrumModel<double>::headShape (double, double, double*) const noexcept;
template void BasicDrumModel<double>::hoopShape (double, double*) const noexcept;
template void BasicDrumModel<double>::toField (const double*, double*) const noexcept;
template void BasicDrumModel<float>::buildStretch();
template void BasicDrumModel<float>::buildTables();
template void BasicDrumModel<float>::gatherHeadShapes (const Bank&);
template void BasicDrumModel<float>::headShape (double, double, float*) const noexcept;
template void BasicDrumModel<float>::hoopShape (double, float*) const noexcept;
template void BasicDrumModel<float>::toField (const float*, double*) const noexcept;

} // namespace engine
