#pragma once

#include "Number.h"
#include "Tuning.h"

#include "Modal/hardware/Stick.h"
#include "Modal/hardware/Wires.h"

#include <array>

/** Every number that describes a drum, once, with its limits in SI. check(), drum files, the program's options and help, and the
    plugin's parameters take them from here. */
namespace modal
{

/** The numbers of a type: numbersOf<Vent>. */
template <class Owner>
inline constexpr std::array<Number<Owner>, 0> numbersOf{};

/** Whole numbers. */
inline constexpr Count<DrumSpec> lugCount{ "lugs", "rods a head", Dimension::ratio, &DrumSpec::lugs, 4, 16 };
inline constexpr Count<HeadConstruction> plyCount{
    "plies", "plies of equal thickness", Dimension::ratio, &HeadConstruction::plies, 1, 2
};
inline constexpr Count<WireSpec> strandCount{ "strands", "strands of the wires", Dimension::ratio, &WireSpec::strands, 2, 60 };

template <>
inline constexpr auto numbersOf<DrumSpec> = std::to_array<Number<DrumSpec>> ({
    { "diameter", "between the bearing edges", Dimension::length, &DrumSpec::diameter, 0.1, 1.5 },
    { "depth", "from head to head", Dimension::length, &DrumSpec::depth, 0.02, 2.0 },
});

/** check() also holds a dot to the head's diameter and a ring's width to its radius. */
template <>
inline constexpr auto numbersOf<HeadConstruction> = std::to_array<Number<HeadConstruction>> ({
    { "thickness", "of one ply", Dimension::headThickness, &HeadConstruction::plyThickness, 20.0e-6, 500.0e-6 },
    { "coating", "sprayed on the whole head", Dimension::arealDensity, &HeadConstruction::coatingDensity, 0.0, 0.2 },
    { "dot_diameter", "disc of extra film in the centre", Dimension::length, &HeadConstruction::dotDiameter, 0.0, 1.5 },
    { "dot_thickness", "of that disc", Dimension::headThickness, &HeadConstruction::dotThickness, 0.0, 500.0e-6 },
    { "ring_width", "strip of extra film along the rim", Dimension::length, &HeadConstruction::ringWidth, 0.0, 0.75 },
    { "ring_thickness", "of that strip", Dimension::headThickness, &HeadConstruction::ringThickness, 0.0, 500.0e-6 },
});

template <>
inline constexpr auto numbersOf<Vent> = std::to_array<Number<Vent>> ({
    { "diameter", "of the hole in the shell", Dimension::length, &Vent::diameter, 0.0, 0.05 },
    { "length", "of the hole, through the shell", Dimension::length, &Vent::length, 0.5e-3, 0.05 },
});

template <>
inline constexpr auto numbersOf<Shell> = std::to_array<Number<Shell>> ({
    { "thickness", "of the shell's wall", Dimension::length, &Shell::thickness, 0.5e-3, 0.03 },
});

template <>
inline constexpr auto numbersOf<Weather> = std::to_array<Number<Weather>> ({
    { "temperature", "of the air", Dimension::temperature, &Weather::temperature, 233.15, 333.15 },
    { "humidity", "relative", Dimension::share, &Weather::relativeHumidity, 0.0, 1.0 },
    { "pressure", "of the air", Dimension::pressure, &Weather::pressure, 50.0e3, 120.0e3 },
});

/** Beyond what the weather does, for other gases and for the limits that theory knows: no air, or air that is a spring alone. */
template <>
inline constexpr auto numbersOf<Air> = std::to_array<Number<Air>> ({
    { "density", "of the gas", Dimension::gasDensity, &Air::density, 0.0, 20.0 },
    { "sound_speed", "in the gas", Dimension::speed, &Air::soundSpeed, 50.0, 1.0e9 },
    { "viscosity", "dynamic", Dimension::viscosity, &Air::viscosity, 0.0, 1.0e-3 },
    { "heat_ratio", "of the heats at constant pressure and volume", Dimension::ratio, &Air::heatRatio, 1.0, 1.7 },
    { "prandtl", "Prandtl number", Dimension::ratio, &Air::prandtl, 0.1, 10.0 },
});

/** check() also holds a patch to the head's radius and a ring to a width below it. */
template <>
inline constexpr auto numbersOf<MufflingItem> = std::to_array<Number<MufflingItem>> ({
    { "size", "diameter of a patch or width of a ring", Dimension::length, &MufflingItem::size, 0.005, 0.2 },
    { "distance", "of a patch from the centre", Dimension::length, &MufflingItem::distance, 0.0, 0.75 },
    { "angle", "of a patch", Dimension::angle, &MufflingItem::angle, -7.0, 7.0 },
    { "mass", "of a patch or ring", Dimension::mass, &MufflingItem::mass, 0.0, 0.1 },
    { "resistance", "to motion, for each area", Dimension::resistance, &MufflingItem::resistance, 0.0, 1.0e5 },
});

template <>
inline constexpr auto numbersOf<WireSpec> = std::to_array<Number<WireSpec>> ({
    { "strand_mass", "of each strand", Dimension::mass, &WireSpec::strandMass, 0.1e-3, 5.0e-3 },
    { "length_share", "between the end plates, of the head's diameter", Dimension::share, &WireSpec::lengthShare, 0.5, 0.96 },
    { "bed_width", "from the first strand to the last", Dimension::length, &WireSpec::bedWidth, 5.0e-3, 0.12 },
    { "strand_tension", "strainer tension per strand", Dimension::force, &WireSpec::strandTension, 0.05, 30.0 },
    { "press_depth", "of the end plates into the head; negative: a gap", Dimension::length, &WireSpec::pressDepth, -2.0e-3,
      2.0e-3 },
    { "bed_depth", "of the snare beds in the bearing edge", Dimension::length, &WireSpec::bedDepth, 0.0, 5.0e-3 },
    { "bed_span", "of each snare bed along the edge", Dimension::length, &WireSpec::bedSpan, 0.02, 0.2 },
    { "unevenness", "spread of tension between strands", Dimension::share, &WireSpec::unevenness, 0.0, 0.5 },
    { "uneven_press", "by which a strand lies off the mean at most", Dimension::length, &WireSpec::unevenPress, 0.0, 1.0e-3 },
    { "bending", "bending stiffness of a strand's coil", Dimension::bendingStiffness, &WireSpec::bending, 0.0, 0.01 },
    { "contact_loss", "of strands on the head", Dimension::contactLoss, &WireSpec::contactLoss, 0.0, 10.0 },
    { "contact_size", "half the width of a coil's contact", Dimension::length, &WireSpec::contactSize, 0.1e-3, 5.0e-3 },
    { "decay_rate", "of a free strand's lowest mode", Dimension::decayRate, &WireSpec::decayRate, 0.0, 500.0 },
    { "decay_per_oscillation", "loss factor of the coil", Dimension::ratio, &WireSpec::decayPerOscillation, 0.0, 0.5 },
    { "plate_mass", "of each end plate", Dimension::mass, &WireSpec::plateMass, 0.2e-3, 30.0e-3 },
    { "plate_width", "of an end plate, along the strands", Dimension::length, &WireSpec::plateWidth, 2.0e-3, 30.0e-3 },
    { "strap_length", "of strap or cord, free between end plate and edge", Dimension::length, &WireSpec::strapLength, 3.0e-3,
      60.0e-3 },
    { "strap_loss", "loss factor of strap or cord", Dimension::ratio, &WireSpec::strapLoss, 0.0, 1.0 },
    { "gravity", "across the strands", Dimension::acceleration, &WireSpec::gravity, 0.0, 20.0 },
});

template <>
inline constexpr auto numbersOf<StickSpec> = std::to_array<Number<StickSpec>> ({
    { "length", "tip to butt", Dimension::length, &StickSpec::length, 0.2, 0.5 },
    { "diameter", "of the shaft", Dimension::length, &StickSpec::diameter, 8.0e-3, 22.0e-3 },
    { "taper", "from the full shaft to the neck", Dimension::length, &StickSpec::taperLength, 10.0e-3, 0.15 },
    { "tip_diameter", "of the tip", Dimension::length, &StickSpec::tipDiameter, 5.0e-3, 50.0e-3 },
    { "tip_length", "of the tip; longer than wide is oval", Dimension::length, &StickSpec::tipLength, 5.0e-3, 50.0e-3 },
    { "neck_diameter", "behind the tip", Dimension::length, &StickSpec::neckDiameter, 4.0e-3, 14.0e-3 },
    { "rod_diameter", "of a bundle's rods; below 0.5 mm: one piece", Dimension::length, &StickSpec::rodDiameter, 0.0, 8.0e-3 },
    { "brush_wires", "of a brush, how many; below 10: a stick", Dimension::ratio, &StickSpec::brushWires, 0.0, 300.0 },
    { "brush_wire_diameter", "of a brush's wires", Dimension::length, &StickSpec::brushWireDiameter, 0.1e-3, 1.5e-3 },
    { "brush_wire_length", "of a brush's wires, out of the handle", Dimension::length, &StickSpec::brushWireLength, 40.0e-3, 0.2 },
    { "brush_width", "of a brush's fan at the tips of its wires", Dimension::length, &StickSpec::brushWidth, 10.0e-3, 0.2 },
    { "wood_density", "of the wood", Dimension::gasDensity, &StickSpec::woodDensity, 350.0, 1300.0 },
    { "wood_modulus", "of the wood, along the grain", Dimension::elasticModulus, &StickSpec::woodModulus, 4.0e9, 30.0e9 },
    { "fulcrum", "where the hand holds it, of the length from the tip", Dimension::share, &StickSpec::fulcrum, 0.4, 0.9 },
    { "grip_stiffness", "of the fingers", Dimension::stiffness, &StickSpec::gripStiffness, 0.0, 1.0e5 },
    { "grip_damping", "of the fingers", Dimension::damping, &StickSpec::gripDamping, 0.0, 200.0 },
    { "hand_mass", "of the hand behind the fingers", Dimension::mass, &StickSpec::handMass, 0.05, 2.0 },
    { "contact_damping", "of tip and shaft", Dimension::contactLoss, &StickSpec::contactDamping, 0.0, 10.0 },
});

template <>
inline constexpr auto numbersOf<ConcertPitch> = std::to_array<Number<ConcertPitch>> ({
    { "concert_pitch", "A4", Dimension::frequency, &ConcertPitch::a4, 400.0, 480.0 },
});

template <>
inline constexpr auto numbersOf<Interval> = std::to_array<Number<Interval>> ({
    { "interval", "resonant over batter", Dimension::semitones, &Interval::semitones, -24.0, 24.0 },
});

/** The entry of one member: numberOf (&Vent::diameter). */
template <class Owner>
constexpr const Number<Owner>& numberOf (double Owner::*member)
{
    for (const auto& number : numbersOf<Owner>)
        if (number.member == member)
            return number;

    throw "a number that is not in the table";
}

/** Throws InputError naming the first number that is out of range. */
template <class Owner>
void checkNumbers (const Owner& values, const std::string& owner)
{
    for (const auto& number : numbersOf<Owner>)
        check (number, values, owner);
}

/** What a tuning may ask for. What a given head can reach is narrower: see tensionsFor(). */
inline constexpr Range noteRange{ 10.0, 5000.0, "Hz" };         ///< tap notes and the drum note
inline constexpr Range lugCentsRange{ -300.0, 300.0, "cents" }; ///< a lug beside the head's tap note
inline constexpr double lowestTension = 1.0;                    ///< N/m: a head that is all but slack

/** From all but slack to yield, N/m. */
inline Range tensionRange (const HeadConstruction& head)
{
    return { lowestTension, yieldTension (head), "N/m" };
}

/** Areal density of a head of one or two plies away from dot and ring. */
inline constexpr Range arealDensityRange{ numberOf (&HeadConstruction::plyThickness).low * Film::density,
                                          numberOf (&HeadConstruction::plyThickness).high* plyCount.high* Film::density +
                                              numberOf (&HeadConstruction::coatingDensity).high,
                                          "kg/m2" };

} // namespace modal
