#pragma once

#include "Microphone.h"
#include "Roughness.h"

#include "Modal/DrumModes.h"
#include "Modal/DrumSpec.h"
#include "Modal/hardware/Fittings.h"
#include "Modal/hardware/StickBody.h"
#include "Modal/Solve.h"

#include <utility>
#include <vector>

namespace engine
{

/** Resolution of the wire model. */
struct WireDetail
{
    int strands = 8; ///< model strands that represent the real ones; even, 2 to 20
    int points = 8;  ///< contact points a strand; even, 4 to 32
    int modes = 8;   ///< modes per strand, 1 to points
};

/** Where the hand lies on a stick that rests on the head, m from the tip. Common practice, no source. */
inline constexpr double laidHandPlace = 0.06;

/** How a head's film resists being stretched evenly all ways, E·h/(1-ν²), N/m (plane stress). Dot, ring and coating lie on film
   that is stretched already and are left out. */
inline double stretchResistance (const modal::HeadConstruction& head) noexcept
{
    return modal::Film::youngsModulus * head.loadBearingThickness() /
           (1.0 - modal::Film::poissonsRatio * modal::Film::poissonsRatio);
}

/** A stick that lies on the drum under the hand. Throws modal::InputError for a stick out of range. */
inline modal::StickBody laid (const modal::StickSpec& stick)
{
    return modal::solveStick (stick, modal::StickBody::highestBending, laidHandPlace);
}

/** The default stick, solved once. */
inline const modal::StickBody& usualStick()
{
    static const auto body = modal::solveStick ({});
    return body;
}
inline const modal::StickBody& usualLaidStick()
{
    static const auto body = laid ({});
    return body;
}

/** Everything needed to build a playable drum. SI. */
struct DrumSetup
{
    modal::DrumModes modes;
    modal::Tensions tensions; ///< N/m, those that the modes were solved for
    /** N/m, stretchResistance() of the heads: how large strikes raise the tension. */
    double batterStretch = 0.0, resonantStretch = 0.0;
    double batterDensity = 0.0, resonantDensity = 0.0; ///< kg/m² of the films; 0: no sound above the modes
    double batterBending = 0.0, resonantBending = 0.0; ///< N m, HeadConstruction::bendingStiffness(), for the sound above the modes
    double batterRoughness = 0.0; ///< m, roughnessOf() the head, which a brush's wires sweep over
    modal::WireSpec wires;
    modal::StickBody stick = usualStick();         ///< held by its fulcrum
    modal::StickBody laidStick = usualLaidStick(); ///< the same with the hand over its tip, for cross-sticks
    modal::HoopSpec hoop;
    modal::Shell shell;
    std::vector<Microphone> microphones; ///< none to three
    WireDetail wireDetail;
    double sampleRate = 48000.0; ///< Hz, 22 050 to 192 000
};

/** Setup of a drum solved for `tensions`, with its fittings; add microphones and a sample rate. */
inline DrumSetup setUp (const modal::DrumSpec& drum, const modal::Tensions& tensions, modal::DrumModes modes,
                        const modal::Fittings& fittings)
{
    DrumSetup setup;
    setup.modes = std::move (modes);
    setup.tensions = tensions;
    setup.batterStretch = stretchResistance (drum.batter);
    setup.resonantStretch = drum.hasResonantHead() ? stretchResistance (drum.resonant) : 0.0;
    setup.batterDensity = drum.batter.baseDensity();
    setup.resonantDensity = drum.hasResonantHead() ? drum.resonant.baseDensity() : 0.0;
    setup.batterBending = drum.batter.bendingStiffness();
    setup.resonantBending = drum.hasResonantHead() ? drum.resonant.bendingStiffness() : 0.0;
    setup.batterRoughness = roughnessOf (drum.batter);
    setup.wires = fittings.wires;
    setup.stick = modal::solveStick (fittings.stick);
    setup.laidStick = laid (fittings.stick);
    setup.hoop = fittings.hoop;
    setup.shell = drum.shell;
    return setup;
}

} // namespace engine
