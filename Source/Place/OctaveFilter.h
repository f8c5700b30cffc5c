#pragma once

#include "Reverberation.h"

#include <Eigen/Core>

namespace place
{

/** A filter with a gain for each octave: two-pole high shelves at the borders of the octaves, one after the other. */
struct Shelves
{
    struct Stage
    {
        double b0 = 1.0, b1 = 0.0, b2 = 0.0, a1 = 0.0, a2 = 0.0; ///< z-transform, a0 = 1
    };
    static constexpr std::size_t count = Decay::Bands().size() - 1;

    double gain = 1.0; ///< of all frequencies below the first shelf
    std::array<Stage, count> stages{};

    /** Response at a frequency, dB. */
    double decibelsAt (double frequency, double sampleRate) const noexcept;
};

/** The shelves whose response in the middle of each octave is as given, in dB. Octaves beyond the sampled band are left out;
   neighbours that differ by more than 15 dB are brought nearer. */
Shelves shelvesFor (const Decay::Bands& decibels, double sampleRate);

/** Such filters for several signals side by side. */
template <int lanes>
class OctaveFilter
{
public:
    using Lanes = Eigen::Array<double, lanes, 1>;

    void set (int lane, const Shelves& shelves) noexcept
    {
        gain[lane] = shelves.gain;
        for (std::size_t i = 0; i < stages.size(); ++i)
        {
            const auto& from = shelves.stages[i];
            auto& to = stages[i];
            to.b0[lane] = from.b0;
            to.b1[lane] = from.b1;
            to.b2[lane] = from.b2;
            to.a1[lane] = from.a1;
            to.a2[lane] = from.a2;
        }
    }

    /** Its coefficients to or from bytes (Engine/Bytes.h), without the filter state. */
    template <class Self, class Stream>
    static void pass (Self& self, Stream& stream)
    {
        const auto passLanes = [&stream] (auto& numbers) { stream.block (numbers.data(), sizeof (Lanes)); };
        passLanes (self.gain);
        for (auto& s : self.stages)
            for (auto* numbers : { &s.b0, &s.b1, &s.b2, &s.a1, &s.a2 })
                passLanes (*numbers);
    }

    void reset() noexcept
    {
        for (auto& s : stages)
            s.state1 = s.state2 = Lanes::Zero();
    }

    Lanes next (const Lanes& input) noexcept
    {
        Lanes x = gain * input;
        for (auto& s : stages)
        {
            const Lanes y = s.b0 * x + s.state1;
            s.state1 = s.b1 * x - s.a1 * y + s.state2;
            s.state2 = s.b2 * x - s.a2 * y;
            x = y;
        }
        return x;
    }

private:
    struct Stage
    {
        Lanes b0 = Lanes::Ones(), b1 = Lanes::Zero(), b2 = Lanes::Zero(), a1 = Lanes::Zero(), a2 = Lanes::Zero(),
              state1 = Lanes::Zero(), state2 = Lanes::Zero();
    };
    Lanes gain = Lanes::Ones();
    std::array<Stage, Shelves::count> stages;
};

} // namespace place
