#pragma once

#include "Place.h"

/** Statistical acoustics of rooms: reverberation time, absorption, and what reverberation there is beside the direct sound.

    Sources: Sabine 1922; Eyring, JASA 1 (1930) 217; Kuttruff, *Room Acoustics*; Barron & Lee, JASA 84 (1988) 618 (these from
   memory). */
namespace place
{

/** Sabine's formula, s: 24 ln 10 V/(c A), 0.161 V/A at 20 °C. @param absorptionArea  m², 4 m V of the air included */
double sabineTime (double volume, double absorptionArea, double soundSpeed) noexcept;

/** Eyring's formula, s. @param absorption  mean coefficient of the sides, 0 to 1; 1 gives 0 without air
    @param airLoss  dB/m */
double eyringTime (double volume, double surface, double absorption, double airLoss, double soundSpeed) noexcept;

/** The mean absorption coefficient from which Eyring's formula gives that time; 0 where air alone is enough. */
double eyringAbsorption (double volume, double surface, double time, double airLoss, double soundSpeed) noexcept;

/** Critical distance of an omnidirectional source, m: where direct and reverberant sound are equal, √(A/16π) with A from Sabine's
   formula, 0.057 √(V/T). */
double criticalDistance (double volume, double time, double soundSpeed) noexcept;

/** Energy of the reverberant sound at a distance over that of the direct sound at 1 m (Barron's revised theory, which begins
   reverberation when the direct sound arrives): 312 T/V e^(-0.04 r/T) in air of 20 °C. */
double reverberantEnergy (double volume, double time, double distance, double soundSpeed) noexcept;

/** How sound decays in each octave of a place. The last entry is the octave of 16 kHz, which no place describes: sides as at 8
   kHz, air as it is. */
struct Decay
{
    using Bands = std::array<double, octaveCentres.size() + 1>;
    Bands time;     ///< s
    Bands sideLoss; ///< dB, mean, at each reflection
    Bands airLoss;  ///< dB/m

    /** Of a room with the times that are asked for; of the open air with hard ground and without reverberation (times of 0). */
    explicit Decay (const Place&);
};

/** Middle of band `index` of Decay::Bands, Hz. */
constexpr double bandCentre (std::size_t index) noexcept
{
    return octaveCentres[0] * static_cast<double> (1u << index);
}

/** A value at any frequency, straight in its logarithm from middle to middle, and flat beyond. */
double atFrequency (const Decay::Bands&, double frequency) noexcept;

} // namespace place
