#pragma once

#include <string>
#include <vector>

namespace modal
{

/** The two heads: the one that is struck and the one with the wires. */
enum class HeadSide
{
    batter,
    resonant
};

/** The film that drum heads are made of: biaxially stretched polyester (PET).

    Density 1390 kg/m³, modulus and Poisson's ratio as film makers publish them (from memory: 1390 to 1400 kg/m³,
    4 to 5 GPa, 0.38). The yield stress is that of the film at about 5 % strain, 100 MPa (from memory).
*/
struct Film
{
    static constexpr double density = 1390.0;      ///< kg/m³
    static constexpr double youngsModulus = 4.5e9; ///< Pa
    static constexpr double poissonsRatio = 0.38;  ///< dimensionless
    static constexpr double yieldStress = 100.0e6; ///< Pa
};

/** How a head is built. All lengths in metres.

    A dot is a disc of extra film in the centre, a ring is a strip of extra film along the rim: both add mass and no
    tension, since they are glued to the finished head.
*/
struct HeadConstruction
{
    std::string name{};             ///< what a person calls it; free text
    double plyThickness = 254.0e-6; ///< of one ply, 20 to 500 µm
    int plies = 1;                  ///< 1 or 2, equal plies
    double coatingDensity = 0.0;    ///< kg/m² of sprayed coating over the whole head, 0 to 0.2
    double dotDiameter = 0.0;       ///< 0: no dot; below the head's diameter
    double dotThickness = 0.0;      ///< extra film of the dot, 0 to 500 µm
    double ringWidth = 0.0;         ///< 0: no ring; below the head's radius
    double ringThickness = 0.0;     ///< extra film of the ring, 0 to 500 µm

    /** Film that carries the tension, in metres: every ply, no coating, dot or ring. */
    double loadBearingThickness() const noexcept { return plyThickness * plies; }

    /** Resistance of the plies to bending, each by itself: E·h³/12(1-ν²), N m. */
    double bendingStiffness() const noexcept
    {
        return plies * Film::youngsModulus * plyThickness * plyThickness * plyThickness /
               (12.0 * (1.0 - Film::poissonsRatio * Film::poissonsRatio));
    }

    /** Areal density away from dot and ring, kg/m². */
    double baseDensity() const noexcept { return loadBearingThickness() * Film::density + coatingDensity; }
};

/** An annulus a ≤ r ≤ b that carries extra mass. */
struct ExtraMass
{
    double innerRadius; ///< m
    double outerRadius; ///< m
    double density;     ///< kg/m² on top of the base density
};

/** The dot and the ring of a head of this radius as annuli; empty for a plain head. */
std::vector<ExtraMass> extraMasses (const HeadConstruction& head, double radius);

/** Throws InputError, its fields prefixed with `where` ("batter", "resonant"), if the head cannot be built. */
void check (const HeadConstruction& head, double radius, const std::string& where);

} // namespace modal
