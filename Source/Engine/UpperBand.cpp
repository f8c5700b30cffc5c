#include "UpperBand.h"

#include "RadialCache.h"
#include "StrandGeometry.h"

#include "Modal/Units.h"

#include <algorithm>
#include <cmath>

namespace engine
{
namespace
{

/** Modes from this share of the band's upper end on represent those above. */
constexpr double tailFrom = 0.6;

/** Least decay rate, 1/s; heads without loss occur in tests only. */
constexpr double slowestDecay = 5.0;

/** 2 J1(x)/x = 1/√2. */
constexpr double patchAtCorner = 1.616;

/** Least cosθ, for a microphone in the plane of a head. */
constexpr double flattestLook = 0.05;

double cosine (const UpperHead& head, double x, double y, const Microphone& microphone) noexcept
{
    const double above = head.faces * (microphone.z - head.height);
    return above / std::hypot (microphone.x - x, microphone.y - y, above);
}

using Places = Eigen::Array<double, UpperHead::placeSteps + 1, 1>;

/** Radial parts of the basis functions at the places of UpperHead::tailAt, one a column, 1/m. */
Eigen::MatrixXd radialParts (const modal::DrumModes& modes)
{
    static RadialCache memo (
        []
        {
            std::vector<double> shares;
            for (int i = 0; i <= UpperHead::placeSteps; ++i)
                shares.push_back (static_cast<double> (i) / UpperHead::placeSteps);
            return shares;
        }());
    Eigen::MatrixXd parts (UpperHead::placeSteps + 1, static_cast<Eigen::Index> (modes.basis.size()));
    for (Eigen::Index b = 0; b < parts.cols(); ++b)
        parts.col (b) =
            Eigen::Map<const Eigen::VectorXd> (memo (modes.basis[static_cast<std::size_t> (b)]).data(), parts.rows()) /
            modes.radius;
    return parts;
}

/** Square of a mode's shape, mean over the angle, at each place, 1/kg: its parts of one order and parity add up. */
Places squaresAt (const modal::DrumModes& modes, const Eigen::MatrixXd& radial, const Eigen::MatrixXd& shares, int mode)
{
    Places squares = Places::Zero();
    Places sum = Places::Zero();
    for (Eigen::Index b = 0; b < shares.rows(); ++b)
    {
        const auto& function = modes.basis[static_cast<std::size_t> (b)];
        if (shares (b, mode) != 0.0)
            sum += shares (b, mode) * radial.col (b).array();
        const bool isLast = b + 1 == shares.rows() || modes.basis[static_cast<std::size_t> (b + 1)].m != function.m ||
                            modes.basis[static_cast<std::size_t> (b + 1)].parity != function.parity;
        if (! isLast)
            continue;
        squares += (function.m == 0 ? 1.0 : 0.5) * sum.square();
        sum.setZero();
    }
    return squares;
}

/** Level and decay of the response of the modes near the band's end to a force on this head. */
void measureTail (const DrumSetup& setup, const std::vector<ModalPressure>& pressures, std::size_t index, double highest,
                  UpperHead& head)
{
    const double lowest = tailFrom * highest;
    const auto& shares = index == 0 ? setup.modes.batter : setup.modes.resonant;
    const double area = modal::units::pi * setup.modes.radius * setup.modes.radius;
    const Eigen::MatrixXd radial = radialParts (setup.modes);
    Places heardFrom = Places::Zero();
    double heardInAll = 0.0, frequency = 0.0;
    auto& decay = head.decay;
    for (int k = 0; k < setup.modes.size(); ++k)
    {
        const auto& mode = setup.modes.modes[static_cast<std::size_t> (k)];
        if (mode.frequency < lowest || mode.frequency > highest)
            continue;
        const double omega = mode.angularFrequency();
        const double pushed = shares.col (k).squaredNorm() / area; // mean over the head, 1/kg
        double heard = 0.0;
        for (std::size_t m = 0; m < pressures.size(); ++m)
        {
            // The acceleration of a mode after an impulse of 1 N s is φω sin ωt exp(-αt), with the energy φ²ω²/4α: twice the
            // integral of the squared spectrum over the band.
            const double loudness = std::pow (omega * pressures[m].acceleration[k], 2) + std::pow (pressures[m].velocity[k], 2);
            head.tailPower[m] += pushed * loudness / (8.0 * (highest - lowest));
            heard += loudness;
        }
        const double energy = heard / std::max (mode.decay.total(), slowestDecay); // heard after a push of 1 kg^-1/2
        heardFrom += energy * squaresAt (setup.modes, radial, shares, k);
        const double weight = energy * pushed;
        heardInAll += weight;
        frequency += weight * mode.frequency;
        decay.stretch += weight * (mode.decay.film + mode.decay.ply);
        decay.bending += weight * mode.decay.bending;
        decay.radiation += weight * mode.decay.radiation;
        decay.constant += weight * (mode.decay.edge + mode.decay.air + mode.decay.muffling);
    }
    if (heardInAll <= 0.0)
        return;
    decay.frequency = frequency / heardInAll;
    for (double* rate : { &decay.stretch, &decay.bending, &decay.radiation, &decay.constant })
        *rate /= heardInAll;
    for (int i = 0; i <= UpperHead::placeSteps; ++i)
        head.tailAt[static_cast<std::size_t> (i)] = std::sqrt (heardFrom[i] / heardInAll);
}

/** See UpperBand::tipCorner. */
double tipCornerOf (const DrumSetup& setup)
{
    const double k = patchAtCorner / setup.stick.tipHalfWidth;
    return k * std::sqrt ((setup.tensions.batter + setup.batterBending * k * k) / setup.batterDensity) / modal::units::twoPi;
}

} // namespace

double UpperHead::tailGain (double share) const noexcept
{
    const double place = std::clamp (share, 0.0, 1.0) * placeSteps;
    const auto i = static_cast<std::size_t> (std::min (place, placeSteps - 1.0));
    return tailAt[i] + (place - static_cast<double> (i)) * (tailAt[i + 1] - tailAt[i]);
}

double UpperHead::decayAt (double hertz) const noexcept
{
    // Dk²/T where Tk² + Dk⁴ = σω².
    const double stiffened = 0.5 * (std::sqrt (1.0 + decay.stiffness * hertz * hertz) - 1.0);
    const double ratio = hertz / decay.frequency;
    // The modes are those of a film that does not resist bending: their loss by bending is that of waves as long as on such a
    // film, ε = Dσω²/T².
    const double asMembrane = 0.25 * decay.stiffness * hertz * hertz;
    const double bent = asMembrane > 0.0 ? stiffened / (1.0 + stiffened) / asMembrane : 1.0;
    return std::max (slowestDecay, decay.constant + decay.radiation / ratio + decay.stretch * ratio / (1.0 + stiffened) +
                                       decay.bending * ratio * ratio * ratio * bent);
}

DirectPath UpperBand::directPath (int head, double x, double y, const modal::Air& air,
                                  const Microphone& microphone) const noexcept
{
    const auto& film = heads[static_cast<std::size_t> (head)];
    if (film.density <= 0.0 || cosine (film, x, y, microphone) <= 0.0)
        return {};
    const double distance = std::max (0.01, std::hypot (microphone.x - x, microphone.y - y, microphone.z - film.height));
    // Sticks and wires push inwards, which makes negative pressure outside.
    return { -microphone.signedGain() * air.density / (modal::units::twoPi * film.density * distance),
             distance / air.soundSpeed };
}

UpperBand upperBandOf (const DrumSetup& setup, const std::vector<ModalPressure>& pressures)
{
    UpperBand band;
    const auto& modes = setup.modes;
    if (modes.air.isVacuum())
        return band;

    band.lowest = modes.highestFrequency;
    if (setup.batterDensity > 0.0 && setup.stick.tipHalfWidth > 0.0 && ! setup.stick.isBrush())
        band.tipCorner = tipCornerOf (setup);
    if (setup.wires.on)
        band.wireShare = StrandGeometry (setup.wires, 2.0 * modes.radius, setup.wireDetail.strands, setup.wireDetail.points,
                                         setup.wireDetail.modes)
                             .groupShare (band.lowest);
    for (std::size_t index = 0; index < 2; ++index)
    {
        auto& head = band.heads[index];
        head.density = index == 0 ? setup.batterDensity : setup.resonantDensity;
        head.height = index == 0 ? 0.0 : -modes.depth;
        head.faces = index == 0 ? 1.0 : -1.0;
        if (head.density <= 0.0)
            continue;
        const double tension = index == 0 ? setup.tensions.batter : setup.tensions.resonant;
        head.freePath = 0.5 * modal::units::pi * modes.radius / std::sqrt (tension / head.density);
        for (std::size_t m = 0; m < setup.microphones.size(); ++m)
            head.corner[m] =
                modes.air.density * modes.air.soundSpeed /
                (modal::units::pi * head.density * std::max (flattestLook, cosine (head, 0.0, 0.0, setup.microphones[m])));
        const double bending = index == 0 ? setup.batterBending : setup.resonantBending;
        head.decay.stiffness = 4.0 * bending * head.density * std::pow (modal::units::twoPi / tension, 2);
        measureTail (setup, pressures, index, band.lowest, head);
    }
    return band;
}

} // namespace engine
