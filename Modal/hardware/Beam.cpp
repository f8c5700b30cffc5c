#include "Beam.h"

#include "Modal/Units.h"

#include <algorithm>
#include <cmath>

namespace modal
{
namespace
{

/** Timoshenko's shear factor of a round section. */
constexpr double shearFactor = 0.9;

} // namespace

Section Section::round (double diameter, double density, double modulus, double shearModulus)
{
    const double area = 0.25 * units::pi * diameter * diameter, moment = units::pi * std::pow (diameter, 4) / 64.0;
    return { modulus * moment, shearModulus * area * shearFactor, density * area, density * moment, area };
}

BeamElement beamStiffness (const Section& s, double l)
{
    const double shear = 12.0 * s.bending / (s.shear * l * l);
    BeamElement k;
    k << 12.0, 6.0 * l, -12.0, 6.0 * l,                                    //
        6.0 * l, (4.0 + shear) * l * l, -6.0 * l, (2.0 - shear) * l * l,   //
        -12.0, -6.0 * l, 12.0, -6.0 * l,                                   //
        6.0 * l, (2.0 - shear) * l * l, -6.0 * l, (4.0 + shear) * l * l;
    return k * (s.bending / ((1.0 + shear) * l * l * l));
}

BeamElement beamMass (const Section& s, double l)
{
    BeamElement moving, turning;
    moving << 156.0, 22.0 * l, 54.0, -13.0 * l,               //
        22.0 * l, 4.0 * l * l, 13.0 * l, -3.0 * l * l,        //
        54.0, 13.0 * l, 156.0, -22.0 * l,                     //
        -13.0 * l, -3.0 * l * l, -22.0 * l, 4.0 * l * l;
    turning << 36.0, 3.0 * l, -36.0, 3.0 * l,                 //
        3.0 * l, 4.0 * l * l, -3.0 * l, -l * l,               //
        -36.0, -3.0 * l, 36.0, -3.0 * l,                      //
        3.0 * l, -l * l, -3.0 * l, 4.0 * l * l;
    return moving * (s.mass * l / 420.0) + turning * (s.turning / (30.0 * l));
}

Eigen::VectorXd beamRow (double place, double length, int elements, int unknowns, bool slope)
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

} // namespace modal
