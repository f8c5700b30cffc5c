#pragma once

#include "Modal/Units.h"

#include <juce_graphics/juce_graphics.h>

#include <cmath>

namespace editor
{

/** Angle of a lug, rad. Lug 0 is at the right; the others follow clockwise on a head seen from above. */
inline double angleOfLug (int lug, int count)
{
    return modal::units::twoPi * lug / count;
}

/** Unit vector on the screen, where y points down: angles run clockwise from the right. */
inline juce::Point<float> directionOf (double angle)
{
    return { static_cast<float> (std::cos (angle)), static_cast<float> (std::sin (angle)) };
}

} // namespace editor
