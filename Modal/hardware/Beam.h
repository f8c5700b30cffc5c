#pragma once

#include <Eigen/Core>

namespace modal
{

/** What a beam needs to know of a rod at one place. */
struct Section
{
    double bending = 0.0;   ///< N m², modulus × second moment of area
    double shear = 0.0;     ///< N, shear modulus × area × shear factor
    double mass = 0.0;      ///< kg/m
    double turning = 0.0;   ///< kg m, density × second moment of area
    double outerArea = 0.0; ///< m², of the outline

    /** SI throughout. */
    static Section round (double diameter, double density, double modulus, double shearModulus);
};

/** Of one finite element of Timoshenko's beam with cubic shapes, between two nodes that have a deflection and a slope each. */
using BeamElement = Eigen::Matrix4d;

/** Stiffness of an element of this length in m, with shear. */
BeamElement beamStiffness (const Section&, double length);

/** Its mass, of translation and of the sections' turning. */
BeamElement beamMass (const Section&, double length);

/** Deflection at a place as a row over deflections and slopes of the nodes, or its slope. The nodes lie evenly along `length` m, two unknowns each;
    what follows in `unknowns` is left 0. @param elements  how many */
Eigen::VectorXd beamRow (double place, double length, int elements, int unknowns, bool slope);

} // namespace modal
