#include "StickBody.h"

#include "Beam.h"
#include "BrushBody.h"
#include "StickOutline.h"

#include "Modal/Units.h"

#include <Eigen/Eigenvalues>

#include <algorithm>
#include <cmath>
#include <vector>

namespace modal
{
namespace
{

/** Of wood: shear along the grain and crushing across it, as shares of the modulus along the grain, and the loss in bending. The
    Wood Handbook gives hardwoods 0.05 to 0.1 for the first two (from memory). */
constexpr double shearShare = 1.0 / 15.0, acrossShare = 1.0 / 15.0, bendingLossFactor = 0.012;

/** Nylon: density and modulus, a handbook's values from memory. */
constexpr double nylonDensity = 1140.0, nylonModulus = 2.5e9;

/** Felt of a mallet, as a solid that is pressed. Common practice, no source: 15 N flatten a ball of 38 mm by 2 mm, and it gives
   back little. Density, modulus, and what it adds to the damping of the contact, s/m. */
constexpr double feltDensity = 250.0, feltModulus = 0.9e6, feltDamping = 0.75;

/** Of a bundle of rods: how much of its section is wood, and the loss factor of rods that rub on one another. Common practice, no
 * source. */
constexpr double filledShare = 0.75, rubbingLossFactor = 0.1;

constexpr double poissonsRatio = 0.38;

/** N for which a tip's flattening is told: about half of what the usual stick pushes the usual head with at 3 m/s. */
constexpr double flatteningForce = 8.0;

/** Radius of the butt's rounded edge, m, and of a hoop's edge where a shaft meets it. Common practice, no source. */
constexpr double buttRounding = 7.0e-3, hoopEdgeRadius = 2.0e-3;

/** The arm that carries the hand: how fast it would swing about where the stroke ends, Hz, and its damping ratio. Common
   practice, no source: a stroke of the wrist comes to rest within a tenth of a second. */
constexpr double armFrequency = 3.0, armDamping = 0.7;

/** A mode with more damping than this share of the critical would not swing at all; none needs more. */
constexpr double mostDamping = 0.9;

/** What moves slower than this does not bend the stick, Hz. */
constexpr double rigidBelow = 100.0;

constexpr int elements = StickBody::stations - 1;

/** Of a piece of wood. */
Section roundWood (double diameter, double density, double modulus)
{
    return Section::round (diameter, density, modulus, shearShare * modulus);
}

/** Thin rods side by side that bend each for itself: together as heavy as the share of the bundle that they fill. */
Section bundleOf (const StickSpec& stick)
{
    const double rods = filledShare * std::pow (stick.diameter / stick.rodDiameter, 2);
    Section section = roundWood (stick.rodDiameter, stick.woodDensity, stick.woodModulus);
    for (double* part : { &section.bending, &section.shear, &section.mass, &section.turning })
        *part *= rods;
    section.outerArea = 0.25 * units::pi * stick.diameter * stick.diameter;
    return section;
}

/** The stick's outline: an oval tip, a straight taper, the shaft, a rounded butt. */
Section sectionAt (const StickSpec& stick, double place)
{
    if (stick.isBundle())
        return bundleOf (stick);
    const double behindTip = place - stick.tipLength, beforeButt = stick.length - place;
    if (behindTip < 0.0)
    {
        const double fromMiddle = 2.0 * place / stick.tipLength - 1.0;
        const double oval = stick.tipDiameter * std::sqrt (std::max (0.0, 1.0 - fromMiddle * fromMiddle));
        if (stick.tipMaterial == StickSpec::TipMaterial::felt)
        {
            // Round the neck, which alone resists bending.
            Section section = roundWood (stick.neckDiameter, stick.woodDensity, stick.woodModulus);
            const Section ball = roundWood (std::max (oval, stick.neckDiameter), feltDensity, 0.0);
            section.mass += ball.mass - feltDensity * section.outerArea;
            section.outerArea = ball.outerArea;
            return section;
        }
        const double diameter = fromMiddle < 0.0 ? std::max (oval, 0.3 * stick.tipDiameter) : std::max (oval, stick.neckDiameter);
        return stick.tipMaterial == StickSpec::TipMaterial::nylon ? roundWood (diameter, nylonDensity, nylonModulus)
                                                                  : roundWood (diameter, stick.woodDensity, stick.woodModulus);
    }
    double diameter = stick.diameter;
    if (behindTip < stick.taperLength)
        diameter = stick.neckDiameter + (stick.diameter - stick.neckDiameter) * behindTip / stick.taperLength;
    else if (beforeButt < buttRounding)
        diameter = stick.diameter * std::sqrt (std::max (0.05, 1.0 - std::pow (1.0 - beforeButt / buttRounding, 2)));
    return roundWood (diameter, stick.woodDensity, stick.woodModulus);
}

} // namespace

double outlineAt (const StickSpec& stick, double place)
{
    if (stick.isBrush())
        return place < stick.brushWireLength ? 0.0 : stick.diameter;
    return std::sqrt (sectionAt (stick, place).outerArea * 4.0 / units::pi);
}

double StickBody::Mode::at (double share) const noexcept
{
    const double where = std::clamp (share, 0.0, 1.0) * (stations - 1);
    const int i = std::clamp (static_cast<int> (where), 0, stations - 2);
    const double t = where - i;
    const auto at = static_cast<std::size_t> (i);
    return shape[at] + t * (shape[at + 1] - shape[at]);
}

double StickBody::rigidMassAt (double place) const noexcept
{
    double mobility = 0.0;
    for (int k = 0; k < rigidModes; ++k)
        mobility += std::pow (mode[static_cast<std::size_t> (k)].at (place / length), 2);
    return mobility > 0.0 ? 1.0 / mobility : 0.0;
}

double hertzStiffness (double planeModulus, double radius) noexcept
{
    return 4.0 / 3.0 * planeModulus * std::sqrt (radius);
}

StickBody solveStick (const StickSpec& stick, double highest, double hand)
{
    check (stick);
    if (stick.isBrush())
        return solveBrush (stick, highest);
    StickBody body;
    body.length = stick.length;
    body.tipPlace = 0.5 * stick.tipLength;
    body.handPlace = hand >= 0.0 ? std::min (hand, stick.length) : stick.fulcrum * stick.length;

    // Nodes first, each with its deflection and slope, then the hand.
    constexpr int unknowns = 2 * StickBody::stations + 1, handAt = unknowns - 1;
    const double l = stick.length / elements;
    Eigen::MatrixXd stiffness = Eigen::MatrixXd::Zero (unknowns, unknowns), mass = stiffness;
    Eigen::VectorXd displaced = Eigen::VectorXd::Zero (unknowns); // ∫ 2A·(shape of each unknown) dx
    for (int e = 0; e < elements; ++e)
    {
        // Means over the element, whose outline may bend within it.
        BeamElement elementK = BeamElement::Zero(), elementM = BeamElement::Zero();
        constexpr int samples = 4;
        for (int i = 0; i < samples; ++i)
        {
            const Section section = sectionAt (stick, (e + (i + 0.5) / samples) * l);
            elementK += beamStiffness (section, l) / samples;
            elementM += beamMass (section, l) / samples;
            for (const int node : { e, e + 1 })
                displaced[2 * node] += section.outerArea * l / samples;
            body.mass += section.mass * l / samples;
        }
        stiffness.block<4, 4> (2 * e, 2 * e) += elementK;
        mass.block<4, 4> (2 * e, 2 * e) += elementM;
    }

    Eigen::VectorXd grip = beamRow (body.handPlace, stick.length, elements, unknowns, false);
    grip[handAt] = -1.0;
    stiffness += stick.gripStiffness * grip * grip.transpose();
    mass (handAt, handAt) = stick.handMass;
    const double arm = units::twoPi * armFrequency;
    stiffness (handAt, handAt) += stick.handMass * arm * arm;

    // Moving all together, and turning about the tip's end.
    Eigen::VectorXd translation = Eigen::VectorXd::Zero (unknowns), rotation = translation;
    for (int node = 0; node < StickBody::stations; ++node)
    {
        translation[2 * node] = 1.0;
        rotation[2 * node] = node * l;
        rotation[2 * node + 1] = 1.0;
    }
    translation[handAt] = 1.0;
    rotation[handAt] = body.handPlace;

    const Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd> solved (stiffness, mass);
    const Eigen::VectorXd turn = beamRow (body.handPlace, stick.length, elements, unknowns, true);
    for (int k = 0; k < unknowns && body.modes < StickBody::stickModes; ++k)
    {
        const double omega = std::sqrt (std::max (0.0, solved.eigenvalues()[k]));
        const bool isFree = omega < 1.0; // rounding
        const Eigen::VectorXd shape = solved.eigenvectors().col (k);
        auto& mode = body.mode[static_cast<std::size_t> (body.modes)];
        const double handMotion = shape[handAt];
        if (! isFree)
        {
            const double damping = 0.5 * (stick.gripDamping * std::pow (grip.dot (shape), 2) +
                                          2.0 * armDamping * arm * stick.handMass * handMotion * handMotion +
                                          (stick.isBundle() ? rubbingLossFactor : bendingLossFactor) * omega);
            mode.decay = std::min (damping, mostDamping * omega);
            mode.frequency = std::sqrt (omega * omega - mode.decay * mode.decay) / units::twoPi;
            if (mode.frequency > highest)
                break;
        }
        for (int node = 0; node < StickBody::stations; ++node)
            mode.shape[static_cast<std::size_t> (node)] = shape[2 * node];
        mode.atHand = handMotion;
        mode.turnAtHand = turn.dot (shape);
        mode.ofTranslation = shape.dot (mass * translation);
        mode.ofRotation = shape.dot (mass * rotation);
        mode.dipole = shape.dot (displaced);
        if (mode.frequency < rigidBelow)
            body.rigidModes = body.modes + 1;
        ++body.modes;
    }

    const auto plane = [] (double modulus) { return modulus / (1.0 - poissonsRatio * poissonsRatio); };
    const double acrossWood = acrossShare * stick.woodModulus;
    body.contactDamping = stick.contactDamping;
    if (stick.isBundle())
    {
        // The rods of one layer lie on the head with their rounded ends; the middle one of the bundle's place is where they bear.
        const double layer = stick.diameter / stick.rodDiameter;
        body.tipPlace = 0.5 * stick.diameter;
        body.tipStiffness = layer * hertzStiffness (plane (acrossWood), 0.5 * stick.rodDiameter);
        body.shaftStiffness = layer * hertzStiffness (plane (acrossWood), std::sqrt (0.5 * stick.rodDiameter * hoopEdgeRadius));
        body.tipHalfWidth = body.tipFlattens = 0.25 * stick.diameter;
    }
    else
    {
        // An oval has two radii of curvature at its waist; Hertz's law for a sphere of their mean is near enough.
        const double around = 0.5 * stick.tipDiameter, along = 0.25 * stick.tipLength * stick.tipLength / around;
        const bool isFelt = stick.tipMaterial == StickSpec::TipMaterial::felt;
        const double modulus = isFelt                                               ? feltModulus
                               : stick.tipMaterial == StickSpec::TipMaterial::nylon ? nylonModulus
                                                                                    : acrossWood;
        const double tipRadius = std::sqrt (around * along);
        body.tipStiffness = hertzStiffness (plane (modulus), tipRadius);
        body.shaftStiffness = hertzStiffness (plane (acrossWood), std::sqrt (0.5 * stick.diameter * hoopEdgeRadius));
        body.tipHalfWidth = (isFelt ? 0.16 : 0.25) * stick.tipDiameter;
        // Hertz: √(radius × depth).
        const double depth = std::pow (flatteningForce / body.tipStiffness, 2.0 / 3.0);
        body.tipFlattens = std::min (body.tipHalfWidth, std::sqrt (tipRadius * depth));
        body.contactDamping += isFelt ? feltDamping : 0.0;
    }
    return body;
}

StickBody pointMass (double mass, double stiffness, double exponent, double damping)
{
    StickBody body;
    body.modes = body.rigidModes = 1;
    body.mode[0].shape.fill (1.0 / std::sqrt (mass));
    body.mode[0].atHand = 1.0 / std::sqrt (mass);
    body.mode[0].ofTranslation = std::sqrt (mass);
    body.length = body.handPlace = 1.0;
    body.mass = mass;
    body.tipStiffness = body.shaftStiffness = stiffness;
    body.tipExponent = exponent;
    body.contactDamping = damping;
    return body;
}

} // namespace modal
