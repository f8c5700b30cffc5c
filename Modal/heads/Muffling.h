#pragma once

#include "Head.h"

#include <vector>

namespace modal
{

/** Muffling laid on a head: it adds mass and absorbs energy where it lies.

    A patch is a disc, a ring lies along the rim. Both have a mass and a resistance to motion.

    The resistance by default is that of soft gel, 3 mm thick, near 250 Hz. Such a layer sways in its own thickness: with a
   modulus of 0.1 MPa and a loss factor of 0.5 (from memory, for soft vinyl gels) it pushes back as its mass times tan(kh)/kh,
   whose imaginary part is ωm·η(kh)²/3 below its own resonance near 700 Hz: 190 N·s/m³ at 206 Hz, 340 at 250 Hz. Common practice
   has such a gel halve the ring. */
struct MufflingItem
{
    enum class Shape
    {
        patch, ///< a disc at (distance, angle): gel, tape, folded cloth
        ring   ///< a strip along the rim
    };

    Shape shape = Shape::patch;
    HeadSide head = HeadSide::batter;
    double size = 0.03;        ///< m, diameter of a patch or width of a ring, 5 to 200 mm
    double distance = 0.12;    ///< m from the head's centre to the patch's centre, 0 to the head's radius
    double angle = 0.0;        ///< rad, of a patch's centre, clockwise from lug 1 seen from above
    double mass = 0.003;       ///< kg, 0 to 0.1
    double resistance = 270.0; ///< N·s/m³, force per area and speed: rubbing inside the cloth or gel, 0 to 1e5; see above
};

/** All that lies on a drum; part of DrumSpec, and solve() takes it into the modes. */
using Muffling = std::vector<MufflingItem>;

/** Throws InputError naming the item (counted from 1) and the field that is out of range on a head of this radius. */
void check (const Muffling&, double radius);

} // namespace modal
