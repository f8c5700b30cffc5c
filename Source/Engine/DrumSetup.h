#pragma once

#include "Microphone.h"

#include "Modal/DrumModes.h"
#include "Modal/DrumSpec.h"
#include "Modal/Hoop.h"
#include "Modal/Solve.h"
#include "Modal/Stick.h"
#include "Modal/Wires.h"

#include <vector>

namespace engine
{

/** How finely the wires are modelled. */
struct WireDetail
{
    int strands = 8; ///< model strands that stand for the real ones; even, 2 to 20
    int points = 8;  ///< contact points a strand; even, 4 to 32
    int modes = 8;   ///< modal strings a strand, 1 to points
};

/** How a head's film resists being stretched evenly all ways, E·h/(1-ν²), N/m (plane stress). Dot, ring and coating lie on film
   that is stretched already and are left out. */
inline double stretchResistance (const modal::HeadConstruction& head) noexcept
{
    return modal::Film::youngsModulus * head.loadBearingThickness() /
           (1.0 - modal::Film::poissonsRatio * modal::Film::poissonsRatio);
}

/** Everything that a playable drum is made from. SI. */
struct DrumSetup
{
    modal::DrumModes modes;
    modal::Tensions tensions; ///< N/m, those that the modes were solved for
    double batterStretch = 0.0, resonantStretch = 0.0; ///< N/m, stretchResistance() of the heads: how large strikes raise the tension
    modal::WireSpec wires;
    modal::StickSpec stick;
    modal::HoopSpec hoop;
    modal::Shell shell;
    std::vector<Microphone> microphones; ///< one to three
    WireDetail wireDetail;
    double sampleRate = 48000.0; ///< Hz, 22 050 to 192 000
};

/** What follows from the drum itself: its shell, and how its films stretch. */
inline void fitTo (const modal::DrumSpec& drum, DrumSetup& setup) noexcept
{
    setup.batterStretch = stretchResistance (drum.batter);
    setup.resonantStretch = drum.hasResonantHead() ? stretchResistance (drum.resonant) : 0.0;
    setup.shell = drum.shell;
}

} // namespace engine
