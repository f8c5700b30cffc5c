#pragma once

#include "Stick.h"

#include <array>

namespace modal
{

/** A stick and the hand on it, solved into modes of motion across the stick: two rigid ones, the hand against the stick, and the
    bending modes of a tapered beam whose ends are free.

    Plain data of a fixed size, so that an audio thread may copy it. Places are in m from the end of the tip. */
struct StickBody
{
    static constexpr int maxModes = 16;
    static constexpr int stickModes = 12; ///< kept of a stick
    static constexpr double highestBending = 16000.0; ///< Hz, of the modes that are kept
    static constexpr int stations = 49; ///< where the modes' shapes are known, evenly from the tip's end to the butt

    struct Mode
    {
        double frequency = 0.0; ///< Hz; 0 for rigid motion
        double decay = 0.0;     ///< 1/s, of the amplitude
        std::array<double, stations> shape{}; ///< 1/√kg
        double atHand = 0.0;    ///< 1/√kg, motion of the hand's mass
        double turnAtHand = 0.0; ///< 1/(m·√kg), slope of the stick where the hand holds it
        double ofTranslation = 0.0; ///< √kg, modal speed of the stick and the hand when both move at 1 m/s
        double ofRotation = 0.0; ///< √kg·m, the same when they turn about the tip's end at 1 rad/s, the butt rising
        double dipole = 0.0;    ///< √kg·m³/kg: ∫ 2A·shape dx, A the section: what the air around a moving rod counts as, by volume

        /** 1/√kg at a share of the length from the tip's end, 0 to 1. */
        double at (double share) const noexcept;
    };

    std::array<Mode, maxModes> mode{}; ///< by frequency
    int modes = 0;
    int rigidModes = 0; ///< the first of them: those that bend the stick by next to nothing

    double length = 0.0;
    double tipPlace = 0.0;  ///< where the tip meets the head
    double handPlace = 0.0; ///< the fulcrum
    double mass = 0.0;      ///< kg, of the stick alone

    double tipStiffness = 1.0e8;     ///< N/m^tipExponent, of the tip on the head
    double tipExponent = 1.5;        ///< 1.5 is Hertz's for round bodies
    double shaftStiffness = 1.0e8;   ///< N/m^1.5, of the shaft on a hoop
    double contactDamping = 0.0;     ///< s/m
    double tipHalfWidth = 2.0e-3;    ///< m, of the patch of film that the tip bears on
    double tipFlattens = 2.0e-3;     ///< m, half width over which 8 N flatten the tip on a plane, at most `tipHalfWidth`

    // Of a brush. Its modes are those of the wires of one group as seen from the handle, see solveBrush().
    int groups = 0;         ///< how many bodies stand for its wires; 0: a stick
    double wireLength = 0.0; ///< m, out of the handle: the modes' stations lie along it
    double fanWidth = 0.0;  ///< m, of the fan at the tips
    double tipScatter = 0.0; ///< m, by which the tips of its wires lie higher and lower
    double lean = 0.0;      ///< rad, between the wires and the head
    double pressStiffness = 0.0; ///< N/m, of all wires together, pressed down on the head at their tips

    bool isBrush() const noexcept { return groups > 0; }

    /** m, from the tip's end: of the part that bends. */
    double bentLength() const noexcept { return isBrush() ? wireLength : length; }

    /** Mass that the stick presents at a place when it moves as if it could not bend, kg: to a slow push. */
    double rigidMassAt (double place) const noexcept;
};

/** Frequencies of a free rod and its shapes by finite elements: Timoshenko's beam (bending, shear and rotary inertia) with cubic
    shapes, `highest` Hz being the last mode kept.
    @param hand  where the hand holds the stick, m from the tip's end; below 0: at the fulcrum of `stick`
    @throws InputError for a stick out of range */
StickBody solveStick (const StickSpec& stick, double highest = StickBody::highestBending, double hand = -1.0);

/** A rigid mass that does not turn, for checks against schoolbook mechanics. `stiffness` in N/m^exponent. */
StickBody pointMass (double mass, double stiffness, double exponent = 1.5, double damping = 0.0);

/** Hertz: stiffness of two bodies of one radius of curvature (both ways) at their contact, 4/3·E*·√R, N/m^1.5 (K. L. Johnson, Contact
    Mechanics, 1985, eq. 4.23, from memory). `planeModulus` E* in Pa, `radius` in m. */
double hertzStiffness (double planeModulus, double radius) noexcept;

} // namespace modal
