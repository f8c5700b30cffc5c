#pragma once

namespace engine
{

/** One mode's exact two-step recursion, written with the step d = q - q⁻, so that low frequencies stay accurate in single
   precision:

        d⁺ = keep·d - spring·q + drive·F,   q⁺ = q + d⁺.

    For F = 0 the samples are exactly exp(-αt)·cos(ωt + phase); under a constant force the mode settles at the static
   displacement. Energy, with S = drive: H = (1 + keep)/(4S)·d⁺² + spring/(2S)·q⁺·q, which grows by no more than the work of F;
   the loss in a step is (1 - keep)/(4S)·(q⁺ - q⁻)². */
struct ModalRecursion
{
    double keep = 0.0;
    double spring = 0.0;
    double drive = 0.0; ///< s²

    /** @param frequency  Hz of the ringing, above 0 and below half the sample rate
        @param decay      1/s, not negative
        @param interval   s, one over the sample rate */
    static ModalRecursion from (double frequency, double decay, double interval) noexcept;

    /** A mode without a spring and without loss: free motion. */
    static ModalRecursion free (double interval) noexcept { return { 1.0, 0.0, interval * interval }; }

    double lossOfStep() const noexcept { return drive > 0.0 ? (1.0 - keep) / (4.0 * drive) : 0.0; }
    double energy (double position, double step) const noexcept;

    /** Converts the state of another mode to this one, keeping phase and energy, as when a mode's frequency changes slowly
       against its period (an adiabatic change). */
    void carryOver (const ModalRecursion& former, double& position, double& step) const noexcept;
};

} // namespace engine
