#include "Microphone.h"

#include "RadialCache.h"

#include "Modal/InputError.h"
#include "Modal/Units.h"
#include "Modal/mathematics/Quadrature.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <complex>
#include <map>
#include <mutex>

namespace engine
{
namespace
{

/** Even steps round the rim in which the shortest way over it is looked for. */
constexpr int rimSteps = 64;

/** Where a head's motion is summed: Gauss-Legendre along the radius, even steps of the angle. Both grow with the waves that the
   modes have, so that a sum is as near for the highest as for the lowest: 32 and 64 for a 14-inch head to 2.3 kHz. */
struct Grid
{
    modal::Quadrature radius; ///< shares of the radius, and their weights
    int spokes = 0;

    explicit Grid (const modal::DrumModes& modes)
    {
        double zero = 0.0;
        int order = 0;
        for (const auto& function : modes.basis)
        {
            zero = std::max (zero, function.zero);
            order = std::max (order, function.m);
        }
        // A rule of n points follows some n waves of an eighth each; the rest is for the path to the microphone.
        const auto roundedUp = [] (double count) { return 8 * static_cast<int> (std::ceil (count / 8.0)); };
        radius = modal::gaussLegendre (roundedUp (10.0 + 0.5 * zero), 0.0, 1.0);
        spokes = roundedUp (40.0 + order);
    }

    int rings() const noexcept { return static_cast<int> (radius.points.size()); }
    double angle (int spoke) const noexcept { return modal::units::twoPi * (spoke + 0.5) / spokes; }
};

/** Radial part of every basis function on the rings, without the angular factor. */
Eigen::MatrixXd radialParts (const modal::DrumModes& modes, const Grid& grid)
{
    static std::mutex mutex;
    static std::map<int, RadialCache> memos; // by the number of rings
    auto& memo = [&]() -> RadialCache&
    {
        const std::scoped_lock lock (mutex);
        return memos.try_emplace (grid.rings(), grid.radius.points).first->second;
    }();
    Eigen::MatrixXd parts (grid.rings(), static_cast<Eigen::Index> (modes.basis.size()));
    for (Eigen::Index b = 0; b < parts.cols(); ++b)
        parts.col (b) =
            Eigen::Map<const Eigen::VectorXd> (memo (modes.basis[static_cast<std::size_t> (b)]).data(), grid.rings()) /
            modes.radius;
    return parts;
}

/** Displacement of one mode at each point of the grid on one head. */
Eigen::MatrixXd pointsOf (const modal::DrumModes& modes, const Eigen::MatrixXd& head, const Eigen::MatrixXd& radial,
                          const Grid& grid, int mode)
{
    std::map<std::pair<int, bool>, Eigen::VectorXd> byAngle;
    for (Eigen::Index b = 0; b < head.rows(); ++b)
    {
        const double share = head (b, mode);
        if (share == 0.0)
            continue;
        const auto& function = modes.basis[static_cast<std::size_t> (b)];
        auto& sum =
            byAngle.try_emplace ({ function.m, function.parity == modal::Parity::sine }, Eigen::VectorXd::Zero (grid.rings()))
                .first->second;
        sum += share * radial.col (b);
    }
    Eigen::MatrixXd points = Eigen::MatrixXd::Zero (grid.rings(), grid.spokes);
    for (const auto& [angle, profile] : byAngle)
        for (int spoke = 0; spoke < grid.spokes; ++spoke)
        {
            const double phase = angle.first * grid.angle (spoke);
            points.col (spoke) += profile * (angle.second ? std::sin (phase) : std::cos (phase));
        }
    return points;
}

/** Extra path length from the centre of a head over the rim (and along the shell, if it is in the way) to a point on the other
   side of the drum, compared with the straight line through the drum, m. */
double detour (const modal::DrumModes& modes, double headZ, double otherZ, const Eigen::Vector3d& to)
{
    double shortest = 1.0e9;
    for (int step = 0; step < rimSteps; ++step)
    {
        const double angle = modal::units::twoPi * (step + 0.5) / rimSteps;
        const double x = modes.radius * std::cos (angle), y = modes.radius * std::sin (angle);
        const Eigen::Vector3d rim (x, y, headZ), otherRim (x, y, otherZ);
        const double share = (otherZ - headZ) / (to.z() - headZ);
        const bool passesOtherHead = share > 0.0 && share < 1.0 && (rim + share * (to - rim)).head<2>().norm() < modes.radius;
        const double rest = passesOtherHead ? modes.depth + (to - otherRim).norm() : (to - rim).norm();
        shortest = std::min (shortest, modes.radius + rest);
    }
    return shortest - (to - Eigen::Vector3d (0.0, 0.0, headZ)).norm();
}

/** Sound of a free-standing drum's head on the side that it does not face, as a factor of its sound in free space: long waves
   diffract round the shell, short ones are shadowed. Maekawa's curve for a screen, 10 lg (3 + 20·2δ/λ) dB below a source on open
   ground (Applied Acoustics 1 (1968) 157, from memory), with 4 in place of 3 so that long waves are not attenuated. */
double roundTheShell (double detour, double waveNumber)
{
    return 1.0 / std::sqrt (1.0 + 5.0 * waveNumber * detour / modal::units::pi);
}

struct Side
{
    double z;        ///< m, height of the head's plane
    double outwards; ///< +1 if upward motion pushes the outside air
    bool heard;
    bool faces; ///< the microphone
};

} // namespace

void check (const Microphone& microphone, double radius, double depth, const std::string& field)
{
    const double fromAxis = std::hypot (microphone.x, microphone.y);
    modal::requireInRange (std::hypot (fromAxis, microphone.z), { 0.0, furthestMicrophone, "m" },
                           field + ", distance from the batter head's centre");

    // Distance from the drum as a solid cylinder, rounded to 1 µm so that the least distance passes whatever its rounding.
    const double outwards = std::max (0.0, fromAxis - radius), along = std::max ({ 0.0, microphone.z, -depth - microphone.z });
    const double distance = std::round (1.0e6 * std::hypot (outwards, along)) * 1.0e-6;

    if (distance >= closestMicrophone)
        return;

    const bool isInside = fromAxis < radius && microphone.z < 0.0 && microphone.z > -depth;
    throw modal::InputError (
        field, isInside ? "a place inside the drum" : "a place " + modal::asText (1.0e3 * distance, 3) + " mm from the drum",
        modal::asText (1.0e3 * closestMicrophone) + " mm or more from heads and shell, outside, up to " +
            modal::asText (furthestMicrophone) + " m away");
}

std::vector<Microphone> defaultMicrophones (double depth)
{
    return { { "above", 0.10, 0.06, 0.08 }, { "below", -0.08, 0.05, -depth - 0.10 }, { "distant", 1.2, 0.9, 1.1 } };
}

ModalPressure pressureAt (const modal::DrumModes& modes, const Microphone& microphone)
{
    using Complex = std::complex<double>;
    const bool baffled = modes.surround == modal::Surround::baffled;
    const bool hasResonant = modes.bottom == modal::Bottom::head;
    const bool isAbove = microphone.z > -0.5 * modes.depth;
    const std::array<Side, 2> sides{ Side{ 0.0, 1.0, ! baffled || isAbove, isAbove },
                                     Side{ -modes.depth, -1.0, hasResonant && (! baffled || ! isAbove), ! isAbove } };

    const Grid grid (modes);
    const int rings = grid.rings(), spokes = grid.spokes;
    const auto ringRadius = [&] (int ring) { return grid.radius.points[static_cast<std::size_t> (ring)] * modes.radius; };
    std::array<Eigen::ArrayXXd, 2> distance, weight;
    double nearest = 1.0e9;
    for (std::size_t side = 0; side < 2; ++side)
    {
        distance[side].resize (rings, spokes);
        for (int ring = 0; ring < rings; ++ring)
            for (int spoke = 0; spoke < spokes; ++spoke)
            {
                const double r = ringRadius (ring), angle = grid.angle (spoke);
                const double d = std::hypot (microphone.x - r * std::cos (angle), microphone.y - r * std::sin (angle),
                                             microphone.z - sides[side].z);
                distance[side](ring, spoke) = std::max (d, 0.01);
                if (sides[side].heard)
                    nearest = std::min (nearest, distance[side](ring, spoke));
            }
    }

    ModalPressure heard;
    heard.acceleration = Eigen::VectorXd::Zero (modes.size());
    heard.velocity = Eigen::VectorXd::Zero (modes.size());
    heard.delay = nearest / modes.air.soundSpeed;
    if (modes.air.isVacuum())
        return heard;

    const Eigen::MatrixXd radial = radialParts (modes, grid);
    const double strength = modes.air.density / (baffled ? modal::units::twoPi : 2.0 * modal::units::twoPi);
    // Extra distance of each point over the nearest. Single precision for vectorised sines and cosines; the phase is still
    // accurate to 1e-6.
    std::array<Eigen::ArrayXXf, 2> further;
    for (std::size_t side = 0; side < 2; ++side)
    {
        further[side] = (distance[side] - nearest).cast<float>();
        weight[side].resize (rings, spokes);
        for (int ring = 0; ring < rings; ++ring)
        {
            const double area = grid.radius.weights[static_cast<std::size_t> (ring)] * modes.radius * ringRadius (ring) *
                                modal::units::twoPi / spokes;
            weight[side].row (ring) = sides[side].outwards * area / distance[side].row (ring);
        }
    }

    // The sum of a head's sound on both sides of the drum is the same at any frequency.
    std::array<double, 2> detours{};
    for (std::size_t side = 0; side < 2; ++side)
    {
        const double height = sides[side].faces ? -modes.depth - microphone.z : microphone.z;
        detours[side] = detour (modes, sides[side].z, sides[1 - side].z, { microphone.x, microphone.y, height });
    }

    // Both partners of a pair have the same wave number.
    double lastWaveNumber = -1.0;
    std::array<Eigen::ArrayXXf, 2> cosine, sine;
    for (int mode = 0; mode < modes.size(); ++mode)
    {
        const double omega = modes.modes[static_cast<std::size_t> (mode)].angularFrequency();
        const double waveNumber = omega / modes.air.soundSpeed;
        Complex sum = 0.0;
        for (std::size_t side = 0; side < 2; ++side)
        {
            if (! sides[side].heard)
                continue;
            const Eigen::ArrayXXf pushed =
                (weight[side] * pointsOf (modes, side == 0 ? modes.batter : modes.resonant, radial, grid, mode).array())
                    .cast<float>();
            if (waveNumber != lastWaveNumber)
            {
                const Eigen::ArrayXXf phase = static_cast<float> (waveNumber) * further[side];
                cosine[side] = phase.cos();
                sine[side] = phase.sin();
            }
            const double round = roundTheShell (detours[side], waveNumber);
            const double turned = baffled ? 1.0 : sides[side].faces ? 2.0 - round : round;
            sum += turned * Complex (static_cast<double> ((pushed * cosine[side]).sum()),
                                     -static_cast<double> ((pushed * sine[side]).sum()));
        }
        lastWaveNumber = waveNumber;
        // p = ρ/(2π or 4π)·q''·(A + iB): i·q'' = -ω·q' for a mode that rings as exp(iωt).
        heard.acceleration[mode] = microphone.signedGain() * strength * sum.real();
        heard.velocity[mode] = -microphone.signedGain() * strength * omega * sum.imag();
    }
    return heard;
}

} // namespace engine
