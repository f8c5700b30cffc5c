#include "Theme.h"

#include <cmath>

namespace editor
{
namespace
{

double luminance (juce::Colour colour)
{
    const auto linear = [] (double share) { return share <= 0.03928 ? share / 12.92 : std::pow ((share + 0.055) / 1.055, 2.4); };
    return 0.2126 * linear (colour.getFloatRed()) + 0.7152 * linear (colour.getFloatGreen()) +
           0.0722 * linear (colour.getFloatBlue());
}

} // namespace

const Theme& Theme::light()
{
    static const Theme theme{ juce::Colour (0xfff4f1ea),
                              juce::Colour (0xfffbfaf6),
                              juce::Colour (0xff22262b),
                              juce::Colour (0xff5c6167),
                              juce::Colour (0xff7f8388),
                              juce::Colour (0xffd9d4c8),
                              juce::Colour (0xff0068a3),
                              juce::Colour (0xffb84a00),
                              juce::Colour (0xff00704f),
                              juce::Colour (0xff9c2f5f),
                              false };
    return theme;
}

const Theme& Theme::dark()
{
    static const Theme theme{ juce::Colour (0xff14171a),
                              juce::Colour (0xff1c2024),
                              juce::Colour (0xffece9e2),
                              juce::Colour (0xffa3a8ad),
                              juce::Colour (0xff70767c),
                              juce::Colour (0xff373d43),
                              juce::Colour (0xff62b8ee),
                              juce::Colour (0xfff0964a),
                              juce::Colour (0xff45c79e),
                              juce::Colour (0xffe58fb6),
                              true };
    return theme;
}

juce::Colour Theme::level (float strength) const
{
    constexpr float middle = 0.6f; // where the hue is purest
    return strength < middle ? sheet.interpolatedWith (drum, strength / middle)
                             : drum.interpolatedWith (ink, (strength - middle) / (1.0f - middle));
}

juce::Colour Theme::displacement (float amount) const
{
    const float size = juce::jmin (1.0f, std::abs (amount));
    return sheet.interpolatedWith (amount > 0.0f ? batter : resonant, 0.85f * size);
}

double contrast (juce::Colour a, juce::Colour b)
{
    const double first = luminance (a), second = luminance (b);
    return (juce::jmax (first, second) + 0.05) / (juce::jmin (first, second) + 0.05);
}

} // namespace editor
