#pragma once

#include "Modal/air/Air.h"
#include "Modal/heads/Head.h"
#include "Modal/heads/Muffling.h"

#include <string>

namespace modal
{

/** What closes the drum below the batter head. */
enum class Bottom
{
    head,   ///< a resonant head
    closed, ///< a rigid end: a kettle
    open    ///< nothing: the shell's end radiates
};

/** What surrounds the drum. */
enum class Surround
{
    freeStanding, ///< a drum on a stand; both heads radiate into one space
    baffled       ///< each head set in an infinite rigid wall: the textbook limit
};

/** A hole in the shell. Diameter 0: none. */
struct Vent
{
    double diameter = 12.7e-3; ///< m, 0 to 50 mm
    double length = 6.0e-3;    ///< m, through the shell, 0.5 to 50 mm

    double area() const noexcept; ///< m²
    double effectiveLength()
        const noexcept; ///< m: the hole and what moves along on both sides of it, each as a flanged end (8/3π radii)
};

/** A material by the constants that vibration needs. */
struct Material
{
    std::string name{};
    double density;       ///< kg/m³
    double youngsModulus; ///< Pa, along the ring for wood
    double lossFactor;    ///< dimensionless
};

/** The shell as a ring of constant section. */
struct Shell
{
    std::string material = "maple"; ///< a name that findMaterial() knows
    double thickness = 6.0e-3;      ///< m, 0.5 to 30 mm
};

/** Everything about a drum except how it is tuned. SI. */
struct DrumSpec
{
    std::string name{};
    double diameter = 0.3556; ///< of the heads between bearing edges, m, 0.1 to 1.5
    double depth = 0.1397;    ///< from head to head, m, 0.02 to 2
    int lugs = 10;            ///< rods a head, 4 to 16
    HeadConstruction batter;
    HeadConstruction resonant{ .plyThickness = 76.2e-6 };
    Bottom bottom = Bottom::head;
    Vent vent;
    Muffling muffling{};
    Shell shell;
    Air air;
    Surround surround = Surround::freeStanding;

    double radius() const noexcept { return 0.5 * diameter; }
    bool hasResonantHead() const noexcept { return bottom == Bottom::head; }
};

/** Material constants by name; throws InputError that lists the known names. */
const Material& findMaterial (const std::string& name);

/** Throws InputError naming the first field that is out of range. */
void check (const DrumSpec&);

} // namespace modal
