#pragma once

namespace modal
{

/** Snare wires: stretched coils across the resonant head, and the strainer that holds them.

    Defaults are common practice, no source, except where a member says otherwise. A strand is taken to be a coil of steel wire of
    0.5 mm, 1.9 mm wide in the mean, a turn every 3.5 mm. By the formulas for helical springs (handbooks of machine design, from
    memory) it then weighs 1.1 g on 300 mm, pulls 1.2 N for each millimetre that it is stretched (G·d⁴/8D³n) and bends like a beam
    of 2EI·p/(πD(1 + E/2G)) = 3.4e-4 N m². A strainer stretches it by half a millimetre or
    more, 13 N for 20 wires: that pull, how deep the plates lie and how unevenly the wires do were chosen within what is plausible
   so that attack and decay with the wires on are near those of recorded drums (tests/recordings/README.md). An end plate is taken
    to be a strip of sheet steel, 46 by 10 by 1 mm, with solder on it; it hangs from cord or straps, over the bearing edge, on
   strainer and butt.

    What a pull stores as a strand or a strap swings, it gives back: only the coil's bending and the solder at its ends, the
   strap's bending over the edge and the air lose any. By Stokes's drag on an oscillating cylinder (from memory) the air takes
   0.06/s from the coil's 0.6 m of thin wire at 27 Hz and 0.3/s at 1 kHz; the coils of a spring reverberator, which ring for 2 to
   4 s at some 1 kHz (from memory), have a loss factor of 0.0005 to 0.001. */
struct WireSpec
{
    bool on = true;                     ///< the strainer's lever; off holds the wires clear of the head
    int strands = 20;                   ///< wires in the set, 2 to 60
    double strandMass = 1.1e-3;         ///< kg, each, between the end plates, 0.1 to 5 g
    double lengthShare = 0.86;          ///< between the end plates, as a share of the head's diameter, 0.5 to 0.96
    double bedWidth = 42.0e-3;          ///< m, from the first wire to the last, 5 to 120 mm
    double strandTension = 0.65;        ///< N a wire, set by the strainer, 0.05 to 30
    double pressDepth = 0.03e-3;        ///< m the end plates are pressed into the head (negative: a gap), -2 to 2 mm
    double bedDepth = 1.5e-3;           ///< m by which the bearing edge is cut back where the wires cross it, 0 to 5 mm
    double bedSpan = 0.12;              ///< m of the edge along which each of both beds is cut, 20 to 200 mm
    double unevenness = 0.08;           ///< relative spread of tension between wires, 0 to 0.5
    double unevenPress = 0.20e-3;       ///< m by which a wire lies above or below the mean of all at most, 0 to 1 mm
    double bending = 3.4e-4;            ///< N m², bending stiffness of one coil, 0 to 0.01
    double contactLoss = 0.8;           ///< s/m, Hunt-Crossley: force × (1 + loss × approach speed), 0 to 10
    double contactSize = 1.0e-3;        ///< m, half the width over which a coil's turn bears on the head, 0.1 to 5 mm
    double decayRate = 0.3;             ///< 1/s, amplitude decay of a free wire's lowest mode, 0 to 500
    double decayPerOscillation = 0.001; ///< loss factor of the coil above that, 0 to 0.5
    double plateMass = 4.0e-3;          ///< kg of each end plate, 0.2 to 30 g
    double plateWidth = 10.0e-3;        ///< m of each end plate along the wires, 2 to 30 mm
    double strapLength = 18.0e-3;       ///< m of strap or cord that hangs free between end plate and bearing edge, 3 to 60 mm
    double strapLoss = 0.05;            ///< loss factor of the straps as they swing, 0 to 1
    double gravity = 9.80665;           ///< m/s² across the wires: they hang below a level drum (ISO 80000-3), 0 to 20
};

/** Throws InputError naming the first field that is out of range. */
void check (const WireSpec&);

} // namespace modal
