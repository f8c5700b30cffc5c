#pragma once

#include "Taps.h"

namespace listening
{

/** How a mode falls to rest after a large stroke: f(t) = f₀ (1 + rise·exp (−rate·t)), t in s from the blow. Displacement
   stretches the head; the tension relaxes with the square of the amplitude, so the rate is twice the decay of the modes that move
   most. */
struct Glide
{
    double rise = 0.0;  ///< relative, at the blow; 0 to 0.3
    double rate = 10.0; ///< 1/s

    bool isNone() const noexcept { return rise == 0.0; }

    /** ∫ exp (−rate·t) from the blow to t, s. */
    double integral (double t) const noexcept;

    /** Steady time: that in which a mode at rest makes as many periods as this one from the blow to t, s. */
    double steadyTime (double t) const noexcept { return t + rise * integral (t); }

    /** The inverse: the time at which a steady time is reached, s. */
    double timeAt (double steady) const noexcept;
};

/** The ring of one tap in steady time, in which modes that glide together are steady. */
struct Ring
{
    Recording sound; ///< from the tap's last blow to just before the next tap
    Glide glide;     ///< that was taken out of it
};

/** The ring of a tap with a given glide taken out, by interpolation. */
Ring ringOf (const Recording&, const Tap&, const Glide&);

/** The glide that makes the loudest bands of 100 Hz up to 660 Hz explicable by the fewest damped sines; none unless it explains
    them clearly better than steady modes do.

    @param quiet  where the recording's noise is measured, s; see quietestMoment() */
Glide glideOf (const Recording&, const Tap&, double quiet);

} // namespace listening
