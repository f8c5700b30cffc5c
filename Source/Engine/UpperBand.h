#pragma once

#include "DrumSetup.h"
#include "KernelView.h"

#include <array>
#include <limits>

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
    double density = 0.0; ///< kg/m² of the film; 0: there is no such head, or it is not given
    double height = 0.0;  ///< m, of its plane
    double faces = 1.0;   ///< +1 if its outer side looks up, -1 down

    std::array<double, maxMicrophones> corner{}; ///< Hz, below which the air's mass dominates, for the direct sound
    std::array<double, maxMicrophones>
        tailPower{};       ///< |Pa/N|²/s of the reverberant sound: its level times its decay, any frequency
    double freePath = 0.0; ///< s, mean travel time from rim to rim

    /** How the reverberant sound decays, 1/s of the amplitude, by cause. */
    struct TailDecay
    {
        double frequency = 1.0; ///< Hz, where these hold
        double radiation = 0.0; ///< falls as the frequency rises: see below
        double constant = 0.0;  ///< edge, muffling
        double stretch = 0.0;   ///< of the film as it is stretched: grows with the frequency
        double bending = 0.0;   ///< of the film as it is bent: with its third power
        double stiffness = 0.0; ///< 1/Hz²: 4Dσω²/T² over the frequency squared, for the film as a plate
    } decay;

    /** At a frequency in Hz. A film that is short of waves to be a plate (Dk² = T) takes shorter ones to that frequency less
       deep: of its energy the share 1/(1 + ε) is in stretching and ε/(1 + ε) in bending, ε = Dk²/T. */
    double decayAt (double frequency) const noexcept;

    /** How much more of the reverberant sound a force here makes than one anywhere on the head, as amplitude: at even steps from
       the centre to the rim. Only modes of low order are heard, the waves that run nearly straight to and fro across the head,
       and these are denser the nearer the centre. */
    static constexpr int placeSteps = 32;
    std::array<double, placeSteps + 1> tailAt{};

    /** The same at a share of the radius from the centre, 0 to 1. Realtime safe. */
    double tailGain (double share) const noexcept;
};

/** Sound of the heads above the band of the solved modes, computed from the forces of sticks and wires. Output only: it takes no
   energy from the drum.

    Direct sound: a film whose waves are slower than sound radiates from the point of the force and from its rim. With σω² the
   film's inertia (its tension adds (wave speed/c)² sin²θ of that, which is left out), a film with air on both sides that is
   pushed by F in one place has in the far field the pressure

        p = iω cosθ F / (4π c d) / (1 + iωσ cosθ / (2ρc)),

    which is ρF/(2πσd), the force's own spectrum, above the corner ρc/(πσ cosθ). (Junger & Feit, Sound, Structures and Their
   Interaction, from memory, there with air on one side; follows from the film's equation in wave numbers at κ = k sinθ.)

    Reverberant sound: the waves from a force are reflected at the rim again and again and radiate there each time, which is much
   louder than the direct sound, later and longer. Only their statistics are modelled, by a feedback delay network per head: level
   at each microphone and decay are those of the drum's own modes in the upper part of the band. The level holds above, since the
   radiation of a mode's edge falls as the number of modes grows. */
struct UpperBand
{
    double lowest = 0.0;            ///< Hz, crossover from the modes; 0: no upper band
    std::array<UpperHead, 2> heads; ///< batter, resonant

    /** Hz, above which a stick's tip drives the waves less, since they are shorter than the round patch of half width a on which
       it bears: there the mean of a wave over the patch, 2 J1(ka)/ka, is 1/√2. Infinite for brushes, whose wires bear on points.
     */
    double tipCorner = std::numeric_limits<double>::infinity();

    /** Share of a model strand's force that is heard: see StrandGeometry::groupShare(). */
    double wireShare = 1.0;

    DirectPath directPath (int head, double x, double y, const modal::Air&, const Microphone&) const noexcept;
};

/** @param pressures   of all modes, one entry a microphone */
UpperBand upperBandOf (const DrumSetup&, const std::vector<ModalPressure>& pressures);

} // namespace engine
