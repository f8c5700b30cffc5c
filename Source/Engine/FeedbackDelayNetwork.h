#pragma once

#include "Filters.h"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <numbers>
#include <vector>

namespace engine
{

/** A feedback delay network (Jot): delay lines coupled by an orthogonal matrix, which conserves energy, with a one-pole loss
   filter each. Its impulse response is a dense, exponentially decaying noise. Models the waves in a head above the solved modes.
 */
template <typename Scalar>
class FeedbackDelayNetwork
{
public:
    static constexpr int lines = 8;
    static constexpr Scalar share = Scalar (0.35355339059327); ///< 1/√8 to each line: an impulse of 1 has an energy of 1
    using Signs = std::array<Scalar, lines>;

    /** Allocates the delay lines for up to `sampleRate` Hz. */
    explicit FeedbackDelayNetwork (double sampleRate)
        : memory (std::bit_ceil (static_cast<std::size_t> (longestDelay * sampleRate) + 2)), mask (memory.size() - 1)
    {
    }

    void reset() noexcept
    {
        std::fill (memory.begin(), memory.end(), Signs{});
        damped = {};
        inputState = {};
    }

    struct Decay
    {
        double frequency; ///< Hz
        double rate;      ///< 1/s, of the amplitude
    };

    /** @param shortest   s, the shortest delay
        @param low, high  two points of the decay; low.frequency < high.frequency < half the rate. A high-pass at the lower one
       (two poles of the crossover) keeps lower frequencies out, so that changing the delays while the
       network rings makes no click. */
    void set (double shortest, Decay low, Decay high, double sampleRate) noexcept
    {
        inputHighPass = HighPassCoefficients<Scalar>::twoPoles (low.frequency, butterworthQualities[0], sampleRate);
        shortest = std::clamp (shortest, 0.25e-3, 0.5 * longestDelay);
        meanDelay = 0.0;
        for (int i = 0; i < lines; ++i)
        {
            // Geometrically spaced, so that echoes of different lines rarely coincide.
            const double seconds = shortest * std::pow (longestDelay / shortest, static_cast<double> (i) / (lines - 1));
            const auto at = static_cast<std::size_t> (i);
            delay[at] = std::max<std::size_t> (1, static_cast<std::size_t> (seconds * sampleRate));
            meanDelay += seconds / lines;
            // One-pole filter through both decay points, if one pole can be that steep.
            const auto kept = [&] (const Decay& d) { return std::exp (-2.0 * d.rate * seconds); };
            const auto turn = [&] (const Decay& d) { return std::cos (2.0 * std::numbers::pi * d.frequency / sampleRate); };
            const double steepest = 1.2 * (1.0 - turn (low)) / (1.0 - turn (high));
            const double ratio = std::max (kept (high) / kept (low), steepest), q = turn (low) - ratio * turn (high);
            const double pole = ratio < 1.0 ? (q - std::sqrt (q * q - (1.0 - ratio) * (1.0 - ratio))) / (1.0 - ratio) : 0.0;
            const double gain = std::sqrt (kept (low) * (1.0 + pole * pole - 2.0 * pole * turn (low)));
            feed[at] = static_cast<Scalar> (std::min (gain, 0.9999 * (1.0 - pole)));
            keep[at] = static_cast<Scalar> (pole);
        }
    }

    /** Energy of the impulse response (mean over frequency) times the decay rate in 1/s, for an impulse of 1 spread over the
       lines with signs ±1 and an output that sums the lines with signs ±1. */
    double loudness() const noexcept { return 1.0 / (2.0 * meanDelay); }

    /** Processes one sample: input and output of each line. */
    Signs next (const Signs& input) noexcept
    {
        Signs out;
        for (std::size_t i = 0; i < lines; ++i)
        {
            damped[i] = feed[i] * memory[(position - delay[i]) & mask][i] + keep[i] * damped[i];
            out[i] = damped[i];
        }
        const Signs filtered = inputState.next (input, inputHighPass), mixed = transformed (out);
        auto& to = memory[position & mask];
        for (std::size_t i = 0; i < lines; ++i)
            to[i] = share * mixed[i] + filtered[i];
        ++position;
        return out;
    }

    /** Fast 8 × 8 Hadamard transform (butterflies); the rows are orthogonal sign patterns. */
    static Signs transformed (const Signs& x) noexcept
    {
        const Scalar a0 = x[0] + x[4], a1 = x[1] + x[5], a2 = x[2] + x[6], a3 = x[3] + x[7];
        const Scalar a4 = x[0] - x[4], a5 = x[1] - x[5], a6 = x[2] - x[6], a7 = x[3] - x[7];
        const Scalar b0 = a0 + a2, b1 = a1 + a3, b2 = a0 - a2, b3 = a1 - a3;
        const Scalar b4 = a4 + a6, b5 = a5 + a7, b6 = a4 - a6, b7 = a5 - a7;
        return { b0 + b1, b0 - b1, b2 + b3, b2 - b3, b4 + b5, b4 - b5, b6 + b7, b6 - b7 };
    }

private:
    static constexpr double longestDelay = 0.04; ///< s: so long that the network's modes overlap and are not heard as tones

    std::vector<Signs> memory;
    std::size_t mask, position = 0;
    std::array<std::size_t, lines> delay{};
    Signs feed{}, keep{}, damped{};
    HighPassCoefficients<Scalar> inputHighPass;
    HighPassState<Scalar, lines> inputState;
    double meanDelay = 1.0;
};

} // namespace engine
