#include "StickBody.h"

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

constexpr double poissonsRatio = 0.38;

/** Radius of the butt's rounded edge, m, and of a hoop's edge where a shaft meets it. Common practice, no source. */
constexpr double buttRounding = 7.0e-3, hoopEdgeRadius = 2.0e-3;

/** Timoshenko's shear factor of a round section. */
constexpr double shearFactor = 0.9;

/** The arm that carries the hand: how fast it would swing about where the stroke ends, Hz, and its damping ratio. Common practice,
    no source: a stroke of the wrist comes to rest within a tenth of a second. */
constexpr double armFrequency = 3.0, armDamping = 0.7;

/** A mode with more damping than this share of the critical would not swing at all; none needs more. */
constexpr double mostDamping = 0.9;

/** What moves slower than this does not bend the stick, Hz. */
constexpr double rigidBelow = 100.0;

constexpr int elements = StickBody::stations - 1;

struct Section
{
    double diameter, density, modulus;
    double area() const noexcept { return 0.25 * units::pi * diameter * diameter; }
    double secondMoment() const noexcept { return units::pi * std::pow (diameter, 4) / 64.0; }
};

/** The stick's outline: an oval tip, a straight taper, the shaft, a rounded butt. */
Section sectionAt (const StickSpec& stick, double place)
{
    Section section{ stick.diameter, stick.woodDensity, stick.woodModulus };
    const double behindTip = place - stick.tipLength, beforeButt = stick.length - place;
    if (behindTip < 0.0)
    {
        const double fromMiddle = 2.0 * place / stick.tipLength - 1.0;
        const double oval = stick.tipDiameter * std::sqrt (std::max (0.0, 1.0 - fromMiddle * fromMiddle));
        section.diameter = fromMiddle < 0.0 ? std::max (oval, 0.3 * stick.tipDiameter) : std::max (oval, stick.neckDiameter);
        if (stick.tipMaterial == StickSpec::TipMaterial::nylon)
        {
            section.density = nylonDensity;
            section.modulus = nylonModulus;
        }
    }
    else if (behindTip < stick.taperLength)
        section.diameter = stick.neckDiameter + (stick.diameter - stick.neckDiameter) * behindTip / stick.taperLength;
    else if (beforeButt < buttRounding)
        section.diameter = stick.diameter * std::sqrt (std::max (0.05, 1.0 - std::pow (1.0 - beforeButt / buttRounding, 2)));
    return section;
}

using Element = Eigen::Matrix4d;

/** Stiffness of a beam element between two nodes of deflection and slope, with shear. */
Element elementStiffness (const Section& s, double l)
{
    const double EI = s.modulus * s.secondMoment();
    const double shear = 12.0 * EI / (shearShare * s.modulus * s.area() * shearFactor * l * l);
    Element k;
    k << 12.0, 6.0 * l, -12.0, 6.0 * l,                                    //
        6.0 * l, (4.0 + shear) * l * l, -6.0 * l, (2.0 - shear) * l * l,   //
        -12.0, -6.0 * l, 12.0, -6.0 * l,                                   //
        6.0 * l, (2.0 - shear) * l * l, -6.0 * l, (4.0 + shear) * l * l;
    return k * (EI / ((1.0 + shear) * l * l * l));
}

/** Its mass, of translation and of the sections' turning. */
Element elementMass (const Section& s, double l)
{
    Element moving, turning;
    moving << 156.0, 22.0 * l, 54.0, -13.0 * l,               //
        22.0 * l, 4.0 * l * l, 13.0 * l, -3.0 * l * l,        //
        54.0, 13.0 * l, 156.0, -22.0 * l,                     //
        -13.0 * l, -3.0 * l * l, -22.0 * l, 4.0 * l * l;
    turning << 36.0, 3.0 * l, -36.0, 3.0 * l,                 //
        3.0 * l, 4.0 * l * l, -3.0 * l, -l * l,               //
        -36.0, -3.0 * l, 36.0, -3.0 * l,                      //
        3.0 * l, -l * l, -3.0 * l, 4.0 * l * l;
    return moving * (s.density * s.area() * l / 420.0) + turning * (s.density * s.secondMoment() / (30.0 * l));
}

/** Deflection at a place as a row over the nodes' deflections and slopes (Hermite's cubics), or its slope. */
Eigen::VectorXd rowAt (double place, double length, int unknowns, bool slope)
{
    const double l = length / elements;
    const int e = std::clamp (static_cast<int> (place / l), 0, elements - 1);
    const double t = std::clamp (place / l - e, 0.0, 1.0);
    Eigen::VectorXd row = Eigen::VectorXd::Zero (unknowns);
    if (slope)
        row.segment<4> (2 * e) << (6.0 * t * t - 6.0 * t) / l, 1.0 - 4.0 * t + 3.0 * t * t, (6.0 * t - 6.0 * t * t) / l,
            3.0 * t * t - 2.0 * t;
    else
        row.segment<4> (2 * e) << 1.0 - 3.0 * t * t + 2.0 * t * t * t, l * t * (1.0 - t) * (1.0 - t), t * t * (3.0 - 2.0 * t),
            l * t * t * (t - 1.0);
    return row;
}

} // namespace

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
        Element elementK = Element::Zero(), elementM = Element::Zero();
        constexpr int samples = 4;
        for (int i = 0; i < samples; ++i)
        {
            const Section section = sectionAt (stick, (e + (i + 0.5) / samples) * l);
            elementK += elementStiffness (section, l) / samples;
            elementM += elementMass (section, l) / samples;
            for (const int node : { e, e + 1 })
                displaced[2 * node] += section.area() * l / samples;
            body.mass += section.density * section.area() * l / samples;
        }
        stiffness.block<4, 4> (2 * e, 2 * e) += elementK;
        mass.block<4, 4> (2 * e, 2 * e) += elementM;
    }

    Eigen::VectorXd grip = rowAt (body.handPlace, stick.length, unknowns, false);
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
    const Eigen::VectorXd turn = rowAt (body.handPlace, stick.length, unknowns, true);
    for (int k = 0; k < unknowns && body.modes < StickBody::maxModes; ++k)
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
                                          bendingLossFactor * omega);
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

    const bool isNylon = stick.tipMaterial == StickSpec::TipMaterial::nylon;
    const auto plane = [] (double modulus) { return modulus / (1.0 - poissonsRatio * poissonsRatio); };
    // An oval has two radii of curvature at its waist; Hertz's law for a sphere of their mean is near enough.
    const double around = 0.5 * stick.tipDiameter, along = 0.25 * stick.tipLength * stick.tipLength / around;
    body.tipStiffness =
        hertzStiffness (plane (isNylon ? nylonModulus : acrossShare * stick.woodModulus), std::sqrt (around * along));
    body.shaftStiffness =
        hertzStiffness (plane (acrossShare * stick.woodModulus), std::sqrt (0.5 * stick.diameter * hoopEdgeRadius));
    body.contactDamping = stick.contactDamping;
    body.tipHalfWidth = 0.25 * stick.tipDiameter;
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
