#pragma once

#include <string>

namespace modal
{

/** A drum stick as the trade describes it, and the hand that holds it. The default is a medium hickory stick. With `rodDiameter` it is a
    bundle of thin rods, of one thickness all along; with a tip of felt a mallet; with `brushWires` a brush: a fan of wires in a handle. */
struct StickSpec
{
    enum class TipMaterial
    {
        wood, ///< turned from the stick
        nylon, ///< a cap
        felt  ///< a ball round the neck
    };

    double length = 0.406;       ///< m, tip to butt, 200 to 500 mm
    double diameter = 14.3e-3;   ///< m, of the shaft, 8 to 22 mm
    double taperLength = 90.0e-3; ///< m, from the shaft's full diameter to the neck behind the tip, 10 to 150 mm
    double tipDiameter = 10.0e-3; ///< m, 5 to 50 mm
    double tipLength = 12.0e-3;   ///< m, 5 to 50 mm; longer than wide is an oval tip, as long as wide a round one
    double neckDiameter = 6.5e-3; ///< m, where the taper meets the tip, 4 to 14 mm
    TipMaterial tipMaterial = TipMaterial::wood;
    double rodDiameter = 0.0;     ///< m, of the rods that a bundle is tied of, 0 to 8 mm; below 0.5 mm the stick is one piece

    bool isBundle() const noexcept { return rodDiameter >= 0.5e-3; }

    enum class BrushMaterial
    {
        steel,
        nylon
    };

    double brushWires = 0.0;          ///< of a brush, 0 to 300; below 10 it is a stick
    double brushWireDiameter = 0.3e-3; ///< m, 0.1 to 1.5 mm
    double brushWireLength = 0.12;     ///< m, out of the handle, 40 to 200 mm
    double brushWidth = 0.09;          ///< m, of the fan at its tips, 10 to 200 mm
    BrushMaterial brushMaterial = BrushMaterial::steel;

    bool isBrush() const noexcept { return brushWires >= 10.0; }

    double woodDensity = 800.0;  ///< kg/m³, 350 to 1300
    double woodModulus = 15.2e9; ///< Pa, along the grain, 4 to 30 GPa

    /** Where the hand holds the stick, as a share of its length from the tip, 0.4 to 0.9. Two thirds: there a blow on the tip of
        an even rod gives the hand no jolt (the centre of percussion). */
    double fulcrum = 2.0 / 3.0;
    double gripStiffness = 3.0e3; ///< N/m, of the fingers' flesh, 0 to 1e5
    double gripDamping = 8.0;     ///< N s/m, of the same, 0 to 200
    double handMass = 0.4;        ///< kg, of the hand behind that flesh, 0.05 to 2

    /** Impact damping of tip and shaft, s/m: force × (1 + damping × approach speed) (Hunt & Crossley), 0 to 10. */
    double contactDamping = 0.25;
};

/** Throws InputError naming the first field that is out of range. */
void check (const StickSpec&);

} // namespace modal
