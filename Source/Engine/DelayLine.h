#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace engine
{

/** Weights of cubic Lagrange interpolation between four samples in a row, `t` from the second to the third. */
inline std::array<double, 4> cubicWeights (double t) noexcept
{
    return { -t * (t - 1.0) * (t - 2.0) / 6.0, (t + 1.0) * (t - 1.0) * (t - 2.0) / 2.0, -(t + 1.0) * t * (t - 2.0) / 2.0,
             (t + 1.0) * t * (t - 1.0) / 6.0 };
}

/** Fractional delay by cubic Lagrange interpolation; a delay of 0 passes samples unchanged. */
template <typename Scalar>
class DelayLine
{
public:
    /** Allocates room for `longest` samples. */
    explicit DelayLine (int longest) : memory (static_cast<std::size_t> (longest + 8), Scalar (0)) {}

    void reset() noexcept { std::fill (memory.begin(), memory.end(), Scalar (0)); }

    /** In samples, clamped to 0 … longest. */
    void setDelay (double samples) noexcept
    {
        samples = std::clamp (samples, 0.0, static_cast<double> (memory.size() - 8));
        whole = static_cast<int> (samples);
        // The cubic needs a sample on both sides; below one sample of delay interpolation is linear.
        const double t = samples - whole;
        const auto cubic = whole < 1 ? std::array<double, 4>{ 0.0, 1.0 - t, t, 0.0 } : cubicWeights (t);
        std::transform (cubic.begin(), cubic.end(), weights.begin(), [] (double weight) { return static_cast<Scalar> (weight); });
    }

    Scalar next (Scalar in) noexcept
    {
        const int size = static_cast<int> (memory.size());
        head = head + 1 == size ? 0 : head + 1;
        memory[static_cast<std::size_t> (head)] = in;
        Scalar out = 0;
        for (int i = 0; i < 4; ++i)
        {
            int at = head - whole + 1 - i;
            at += at < 0 ? size : 0;
            at -= at >= size ? size : 0;
            out += weights[static_cast<std::size_t> (i)] * memory[static_cast<std::size_t> (at)];
        }
        return out;
    }

private:
    std::vector<Scalar> memory;
    std::array<Scalar, 4> weights{ Scalar (0), Scalar (1), Scalar (0), Scalar (0) };
    int whole = 0, head = 0;
};

} // namespace engine
