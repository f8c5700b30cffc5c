#pragma once

#include "DrumSetup.h"
#include "KernelView.h"

#include <array>

namespace engine
{

/** How a force on one place of a head is heard straight from there. */
struct DirectPath
{
    double gain = 0.0;  ///< Pa/N above the corner; 0 where the microphone does not see that side of the head
    double delay = 0.0; ///< s
};

/** How the film of one head sounds above the modes that are solved. */
struct UpperHead
{
    double density = 0.0; ///< kg/m² of the film; 0: there is no such head, or nobody said
    double height = 0.0;  ///< m, of its plane
    double faces = 1.0;   ///< +1 if its outer side looks up, -1 down

    std::array<double, maxMicrophones> corner{};    ///< Hz below which the air holds the film back, for the direct path
    std::array<double, maxMicrophones> modesEcho{}; ///< |Pa/N|² as a mean over the upper part of the band, of the modes there
    std::array<double, maxMicrophones>
        echo{};                 ///< the same at the end of the band, of the waves that are to sound like modes above it
    double echoDecay = 0.0;     ///< 1/s of these waves at the end of the band, in amplitude,
    double echoDecayRise = 0.0; ///< 1/s and Hz, and how much faster they decay for each hertz above it
    double freePath = 0.0;      ///< s that a wave takes from rim to rim in the mean
};

/** Sound of the heads above the solved band, where no modes are followed: what sticks and wires push with is heard by itself.
   Output only: nothing of it is taken from the drum.

    Directly: a film whose waves are slower than sound radiates from the place that is pushed, and from its rim. With σω² the
   film's inertia (its tension adds (wave speed/c)² sin²θ of that, which is left out), a film with air on both sides that is
   pushed by F in one place is heard far away as

        p = iω cosθ F / (4π c d) / (1 + iωσ cosθ / (2ρc)),

    which is ρF/(2πσd), the force's own spectrum, above the corner ρc/(πσ cosθ). (Junger & Feit, Sound, Structures and Their
   Interaction, from memory, there with air on one side; follows from the film's equation in wave numbers at κ = k sinθ.)

    From the rim: the waves that a force sends out run to and fro until they have died away, and push against the rim each time.
   Far more is heard of that than of the direct path, later and for longer. Of these waves only the statistics are kept: how loud
   they are at each microphone and how fast they die away follow from the drum's own modes in the upper part of the band, and
   since the force of a mode's edge on the air falls as its number grows, the same level holds above. */
struct UpperBand
{
    double lowest = 0.0;            ///< Hz, where it takes over from the modes; 0: there is nothing
    std::array<UpperHead, 2> heads; ///< batter, resonant

    DirectPath directPath (int head, double x, double y, const modal::Air&, const Microphone&) const noexcept;
};

/** @param pressures   of all modes, one entry a microphone */
UpperBand upperBandOf (const DrumSetup&, const std::vector<ModalPressure>& pressures);

} // namespace engine
