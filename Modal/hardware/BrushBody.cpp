#include "BrushBody.h"

#include "Beam.h"

#include "Modal/Units.h"
#include "Modal/heads/Head.h"

#include <Eigen/Eigenvalues>

#include <algorithm>
#include <cmath>

namespace modal
{
namespace
{

/** Handbook values from memory: density, modulus, Poisson's ratio of spring steel and of nylon. */
struct WireMaterial
{
    double density, modulus, poissonsRatio;
};
constexpr WireMaterial steel{ 7850.0, 200.0e9, 0.29 }, nylon{ 1140.0, 2.5e9, 0.4 };

/** Between wires and head as a brush is held. Common practice, no source. */
constexpr double usualLean = 25.0 * units::pi / 180.0;

/** By how much the tips scatter, as a share of the fan's width. Common practice, no source. */
constexpr double scatterShare = 0.1;

/** Loss factor of wires that rub on one another. Common practice, no source. */
constexpr double rubbingLoss = 0.04;

/** See solveBrush(), Hz. Common practice, no source. */
constexpr double landedTogether = 500.0;

constexpr int wireElements = StickBody::stations - 1;

const WireMaterial& materialOf (const StickSpec& stick)
{
    return stick.brushMaterial == StickSpec::BrushMaterial::nylon ? nylon : steel;
}

struct WireModes
{
    Eigen::VectorXd omegas;      ///< rad/s
    Eigen::MatrixXd shapes;      ///< 1/√kg: deflection at every station from the tip's end, one column a mode
    Eigen::VectorXd translation; ///< √kg
};

/** Of one wire, by finite elements; its last node is clamped. */
WireModes solveWire (const StickSpec& stick)
{
    const auto& material = materialOf (stick);
    const auto section = Section::round (stick.brushWireDiameter, material.density, material.modulus,
                                         material.modulus / (2.0 * (1.0 + material.poissonsRatio)));
    constexpr int unknowns = 2 * StickBody::stations, unclamped = unknowns - 2;
    const double l = stick.brushWireLength / wireElements;
    Eigen::MatrixXd stiffness = Eigen::MatrixXd::Zero (unknowns, unknowns), mass = stiffness;
    for (int e = 0; e < wireElements; ++e)
    {
        stiffness.block<4, 4> (2 * e, 2 * e) += beamStiffness (section, l);
        mass.block<4, 4> (2 * e, 2 * e) += beamMass (section, l);
    }
    Eigen::VectorXd together = Eigen::VectorXd::Zero (unknowns);
    for (int node = 0; node < StickBody::stations; ++node)
        together[2 * node] = 1.0;

    const Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd> solved (stiffness.topLeftCorner (unclamped, unclamped),
                                                                            mass.topLeftCorner (unclamped, unclamped));
    WireModes wire;
    wire.omegas = solved.eigenvalues().cwiseMax (0.0).cwiseSqrt();
    wire.shapes = Eigen::MatrixXd::Zero (StickBody::stations, unclamped);
    for (int node = 0; node < wireElements; ++node)
        wire.shapes.row (node) = solved.eigenvectors().row (2 * node);
    wire.translation = solved.eigenvectors().transpose() * (mass * together).head (unclamped);
    return wire;
}

/** How many wires' mass a mode has, in a group of `wires`. */
double wiresInMode (double wires, double frequency)
{
    const double alone = std::sqrt (wires);
    return alone + (wires - alone) / (1.0 + std::pow (frequency / landedTogether, 2));
}

} // namespace

StickBody solveBrush (const StickSpec& stick, double highest)
{
    check (stick);
    const auto& material = materialOf (stick);
    const auto wire = solveWire (stick);
    const double inGroup = stick.brushWires / brushGroups;

    StickBody body;
    body.groups = brushGroups;
    body.wireLength = stick.brushWireLength;
    body.fanWidth = stick.brushWidth;
    body.tipScatter = scatterShare * stick.brushWidth;
    body.lean = usualLean;
    body.length = stick.length;
    body.handPlace = stick.fulcrum * stick.length;
    const double area = 0.25 * units::pi * stick.brushWireDiameter * stick.brushWireDiameter;
    body.mass = stick.brushWires * material.density * area * stick.brushWireLength +
                0.25 * units::pi * stick.diameter * stick.diameter * stick.woodDensity *
                    std::max (0.0, stick.length - stick.brushWireLength);

    double give = 0.0; // of a group's tip, m/N
    for (int k = 0; k < wire.omegas.size() && body.modes < StickBody::maxModes; ++k)
    {
        const double omega = wire.omegas[k], wires = wiresInMode (inGroup, omega / units::twoPi);
        auto& mode = body.mode[static_cast<std::size_t> (body.modes)];
        mode.decay = 0.5 * rubbingLoss * omega;
        mode.frequency = std::sqrt (omega * omega - mode.decay * mode.decay) / units::twoPi;
        if (mode.frequency > highest)
            break;
        for (int node = 0; node < StickBody::stations; ++node)
            mode.shape[static_cast<std::size_t> (node)] = wire.shapes (node, k) / std::sqrt (wires);
        mode.ofTranslation = wire.translation[k] * std::sqrt (wires);
        give += std::pow (mode.shape[0] / omega, 2);
        ++body.modes;
    }
    body.pressStiffness = brushGroups / (give * std::pow (std::cos (body.lean), 2));

    // The wires' ends are rounded off by use, and softer than steel is the film.
    const auto plane = [] (double modulus, double ratio) { return modulus / (1.0 - ratio * ratio); };
    const double film = plane (Film::youngsModulus, Film::poissonsRatio), end = plane (material.modulus, material.poissonsRatio);
    body.tipStiffness = body.shaftStiffness =
        std::sqrt (inGroup) * hertzStiffness (film * end / (film + end), 0.5 * stick.brushWireDiameter);
    body.contactDamping = stick.contactDamping;
    body.tipHalfWidth = body.tipFlattens = 0.5 * stick.brushWidth / brushGroups;
    return body;
}

} // namespace modal
