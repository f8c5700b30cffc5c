#include "PitchScale.h"

#include <cmath>

namespace editor
{

PitchScale::PitchScale (double lowestHertz, double highestHertz, float top, float bottom) noexcept
    : low (lowestHertz), high (highestHertz), topEdge (top), bottomEdge (bottom)
{
}

float PitchScale::yOf (double hertz) const noexcept
{
    return bottomEdge - static_cast<float> (std::log (hertz / low) / std::log (high / low)) * (bottomEdge - topEdge);
}

double PitchScale::hertzAt (float y) const noexcept
{
    return low * std::pow (high / low, static_cast<double> ((bottomEdge - y) / (bottomEdge - topEdge)));
}

float PitchScale::pixelsPerSemitone() const noexcept
{
    return (bottomEdge - topEdge) / static_cast<float> (12.0 * std::log2 (high / low));
}

} // namespace editor
