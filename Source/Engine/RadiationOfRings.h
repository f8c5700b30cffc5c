#pragma once

#include "Bank.h"
#include "Microphone.h"

namespace engine
{

/** Pressure in Pa per (m·√kg/s²) of a ring mode at a microphone.

    Hoop and shell are modelled as simple sources on a circle each, without the body inside it: in the far field their sum is
    ρ·h·R·amplitude/2 · J_n(kR sin γ)·cos nφ / distance, γ the angle from the drum's axis. The phase is ignored. */
double ringPressure (const modal::DrumModes&, const RingMode&, const Microphone&);

} // namespace engine
