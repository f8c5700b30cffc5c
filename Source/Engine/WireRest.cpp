#include "WireRest.h"

#include "FilmUnderWire.h"

#include "Modal/Units.h"
#include "Modal/hardware/SnareBed.h"

#include <Eigen/Eigenvalues>
#include <algorithm>
#include <cmath>

namespace engine
{
namespace
{

/** Static compliance of every mode, 1/ω²; 0 for padding, and for the wires, which lie between end plates at rest. */
double staticCompliance (const BankEntry& entry)
{
    return entry.recursion.spring > 0.0 && entry.kind != BankEntry::Kind::wires ? entry.recursion.drive / entry.recursion.spring
                                                                                : 0.0;
}

Eigen::VectorXd overClass (const Bank& bank, const BankClass& group, double (*value) (const BankEntry&))
{
    Eigen::VectorXd values (group.count);
    for (int k = 0; k < group.count; ++k)
        values[k] = value (bank.entries[static_cast<std::size_t> (group.first + k)]);
    return values;
}

/** A contact's quadrant, and its place in that: contacts lie quadrant by quadrant, ++, +-, -+, --. */
struct Place
{
    int quadrant, point, pair;
    double signY() const { return quadrant % 2 == 0 ? 1.0 : -1.0; }
    double signX() const { return quadrant < 2 ? 1.0 : -1.0; }
};

/** A strand's own mode at a place, 1/√kg. */
double shapeAt (const StrandGeometry& strands, int n, const Place& place)
{
    return strands.shape (n, place.point) * (n % 2 == 0 ? place.signX() : 1.0);
}

Place placeOf (int contact, const StrandGeometry& strands)
{
    const int quadrantSize = strands.halfPoints() * strands.pairs(), inQuadrant = contact % quadrantSize;
    return { contact / quadrantSize, inQuadrant / strands.pairs(), inQuadrant % strands.pairs() };
}

/** Depth of straight, weightless strands below the undeflected head at each contact, m. */
Eigen::VectorXd depthBelowHead (const DrumSetup& setup, const StrandGeometry& strands)
{
    const auto& wires = setup.wires;
    const double radius = setup.modes.radius;
    const modal::SnareBed bed (radius, wires.bedDepth, wires.bedSpan);
    const double atThePlates = bed.height (wires.lengthShare * radius, 0.0);
    Eigen::VectorXd depth (4 * strands.halfPoints() * strands.pairs());
    for (int contact = 0; contact < depth.size(); ++contact)
    {
        const auto place = placeOf (contact, strands);
        depth[contact] = wires.pressDepth + strands.extraPress (place.pair, place.signY() < 0.0) - atThePlates +
                         bed.height (strands.pointX (place.point), strands.strandY (place.pair));
    }
    return depth;
}

/** How far force 1 on mode n of a strand moves it, 1/ω². */
double staticCompliance (const StrandGeometry& strands, int n, int pair)
{
    const double omega = modal::units::twoPi * strands.frequency (n, pair);
    return 1.0 / (omega * omega);
}

/** Adds what the strands yield where they are pressed. */
void addStrands (const StrandGeometry& strands, Eigen::MatrixXd& compliance)
{
    for (Eigen::Index to = 0; to < compliance.rows(); ++to)
        for (Eigen::Index from = 0; from < compliance.cols(); ++from)
        {
            const auto a = placeOf (static_cast<int> (to), strands), b = placeOf (static_cast<int> (from), strands);
            if (a.pair == b.pair && a.signY() == b.signY())
                for (int n = 1; n <= strands.modeCount(); ++n)
                    compliance (to, from) +=
                        shapeAt (strands, n, a) * shapeAt (strands, n, b) * staticCompliance (strands, n, a.pair);
        }
}

/** How far a newton at one contact moves each other one, m/N. */
Eigen::MatrixXd complianceOf (const Bank& bank)
{
    const int n = bank.contactsInQuadrant, classes = static_cast<int> (bank.classes.size());
    Eigen::MatrixXd compliance = Eigen::MatrixXd::Zero (classes * n, classes * n);
    for (int c = 0; c < classes; ++c)
    {
        const auto& group = bank.classes[static_cast<std::size_t> (c)];
        const Eigen::MatrixXd shapes = group.shapes.topRows (n);
        const Eigen::MatrixXd own = shapes * overClass (bank, group, staticCompliance).asDiagonal() * shapes.transpose();
        // A combination of four quadrants is half their sum, with the class's signs.
        const auto sign = [c] (int quadrant)
        { return ((c & 1 & quadrant) != 0 ? -1.0 : 1.0) * ((c & 2 & quadrant) != 0 ? -1.0 : 1.0); };
        for (int to = 0; to < classes; ++to)
            for (int from = 0; from < classes; ++from)
                compliance.block (to * n, from * n, n, n) += sign (to) * sign (from) / classes * own;
    }
    addStrands (*bank.strands, compliance);
    return compliance;
}

/** How far the strands' weight makes them hang at each contact, m, negative. */
Eigen::VectorXd sagOf (const StrandGeometry& strands)
{
    Eigen::VectorXd sag = Eigen::VectorXd::Zero (4 * strands.halfPoints() * strands.pairs());
    for (Eigen::Index contact = 0; contact < sag.size(); ++contact)
    {
        const auto place = placeOf (static_cast<int> (contact), strands);
        for (int n = 1; n <= strands.modeCount(); ++n)
            sag[contact] += shapeAt (strands, n, place) * strands.weight (n) * staticCompliance (strands, n, place.pair);
    }
    return sag;
}

struct Rest
{
    Eigen::VectorXd force, compression;
};

/** Static equilibrium of the contacts under strainer tension and the wires' weight: f = K·max(η, 0), η = pressed - C·f.
    Projected Gauss-Seidel. */
Rest findRest (const DrumSetup& setup, const Bank& bank, double stiffness)
{
    const Eigen::MatrixXd compliance = complianceOf (bank);
    const Eigen::VectorXd pressed = depthBelowHead (setup, *bank.strands) + sagOf (*bank.strands);
    const auto n = pressed.size();

    Rest rest{ Eigen::VectorXd::Zero (n), pressed };
    for (int sweep = 0; sweep < 20000; ++sweep)
    {
        double change = 0.0;
        for (Eigen::Index i = 0; i < n; ++i)
        {
            const double others = pressed[i] - compliance.col (i).dot (rest.force) + compliance (i, i) * rest.force[i];
            const double next = std::max (0.0, stiffness * others / (1.0 + stiffness * compliance (i, i)));
            change = std::max (change, std::abs (next - rest.force[i]));
            rest.force[i] = next;
        }
        if (change <= 1.0e-13 * (1.0e-6 + rest.force.maxCoeff()))
            break;
    }
    rest.compression = pressed - compliance * rest.force;
    // Exactly the contact law's force, so that a drum at rest stays at rest.
    rest.force = stiffness * rest.compression.cwiseMax (0.0);
    return rest;
}

} // namespace

WireContacts buildWireContacts (const DrumSetup& setup, const Bank& bank)
{
    const int classes = static_cast<int> (bank.classes.size());
    const int n = bank.contactsInQuadrant, padded = bank.combinations;
    const auto film = filmUnderWire (setup);
    const Rest rest = findRest (setup, bank, film.stiffness);

    WireContacts contacts;
    contacts.resistance = film.resistance;
    contacts.stiffness = Eigen::VectorXd::Zero (classes * padded);
    contacts.restForce = Eigen::VectorXd::Zero (classes * padded);
    contacts.restCompression = Eigen::VectorXd::Constant (classes * padded, -1.0);
    contacts.metric = Eigen::VectorXd::Zero (classes * padded);
    for (int quadrant = 0; quadrant < classes; ++quadrant)
    {
        contacts.stiffness.segment (quadrant * padded, n).setConstant (film.stiffness);
        contacts.restForce.segment (quadrant * padded, n) = rest.force.segment (quadrant * n, n);
        contacts.restCompression.segment (quadrant * padded, n) = rest.compression.segment (quadrant * n, n);
    }

    const auto drive = [] (const BankEntry& entry) { return entry.recursion.drive; };
    Eigen::VectorXd own = Eigen::VectorXd::Zero (n);
    for (const auto& group : bank.classes)
    {
        contacts.mobility.push_back (group.shapes * overClass (bank, group, drive).asDiagonal() * group.shapes.transpose());
        own += contacts.mobility.back().diagonal().head (n) / classes;
    }

    double largest = 0.0;
    const Eigen::VectorXd scale = own.cwiseSqrt().cwiseInverse();
    for (const auto& mobility : contacts.mobility)
    {
        const Eigen::MatrixXd scaled = scale.asDiagonal() * mobility.topLeftCorner (n, n) * scale.asDiagonal();
        largest = std::max (
            largest, Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> (scaled, Eigen::EigenvaluesOnly).eigenvalues().maxCoeff());
    }
    // Slightly above the largest eigenvalue, to allow for rounding in single precision.
    for (int quadrant = 0; quadrant < classes; ++quadrant)
        contacts.metric.segment (quadrant * padded, n) = 1.001 * largest * own;
    return contacts;
}

} // namespace engine
