#pragma once

#include "DrumSetup.h"

namespace engine
{

/** How the resonant head gives where a model strand touches it, by waves too short for the drum's modes.

    Under a load of half width ε a membrane with tension T deflects by F/(2πT)·ln(ℓ/ε) within the distance ℓ that the modes cannot
    resolve (the static Green's function of a membrane), so that a spring of K = 2πT/ln(ℓ/ε) stands for it, and a finer set of
   modes needs a stiffer one. A model strand that stands for n real ones bears on n such springs: on waves as short as these the
   real ones strike each at its own time and do not feel one another (StrandGeometry).

    The longest of these waves ring as the drum's modes do: they are a strongly damped mode of their own under each contact, with
   their share of that deflection. The rest follows at once, as a spring, beside a resistance for the sound in the film that
   leaves.

    The imaginary part of a membrane's point compliance is 1/4T at any frequency (Hankel's function H0). A resistance R in
   parallel with a spring K has the imaginary compliance ωR/(K² + ω²R²), at most 1/2K, which is less than 1/4T for springs stiffer
   than 2T, as these are. R = K²/4Tω, taken an octave above the end of the modes, gives (1/4T)/(1 + (K/4T)²) there: within 1 % of
   that maximum. */
struct FilmUnderWire
{
    double stiffness = 0.0;  ///< N/m
    double resistance = 0.0; ///< N s/m; 0 if the density of the film is not given

    bool hasWave = false;
    double waveFrequency = 0.0; ///< Hz
    double waveDecay = 0.0;     ///< 1/s
    double waveShape = 0.0;     ///< 1/√kg
};

FilmUnderWire filmUnderWire (const DrumSetup&);

} // namespace engine
