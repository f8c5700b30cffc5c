#include "LadderLayout.h"

#include <algorithm>

namespace editor
{

LadderLayout::LadderLayout (juce::Rectangle<int> area)
{
    auto rest = area.toFloat().reduced (0.0f, 12.0f);
    const bool isNarrow = rest.getWidth() < 300.0f;
    scale = rest.removeFromLeft (isNarrow ? 26.0f : 32.0f);
    plot = rest;
    pillHeight = 34.0f;
    pillWidth = isNarrow ? 60.0f : 78.0f;
    const float gap = isNarrow ? 4.0f : juce::jlimit (14.0f, 64.0f, 0.36f * (rest.getWidth() - 2.0f * pillWidth - 150.0f));
    batterRail = rest.getX() + 4.0f + 0.5f * pillWidth;
    resonantRail = batterRail + pillWidth + gap;
    namesLeft = resonantRail + 0.5f * pillWidth + 4.0f;
    modesLeft = namesLeft + (isNarrow ? 18.0f : 30.0f);
    modesRight = rest.getRight() - 2.0f;
    tickLength = isNarrow ? 10.0f : 22.0f;
    labelLeft = modesLeft + tickLength + (isNarrow ? 5.0f : 12.0f);
}

std::vector<float> spreadLabels (std::vector<float> wanted, float height, float top, float bottom)
{
    for (std::size_t i = 0; i < wanted.size(); ++i)
        wanted[i] = std::max (wanted[i], i == 0 ? top + 0.5f * height : wanted[i - 1] + height);
    float limit = bottom - 0.5f * height;
    for (std::size_t i = wanted.size(); i-- > 0;)
    {
        wanted[i] = std::min (wanted[i], limit);
        limit = wanted[i] - height;
    }
    return wanted;
}

} // namespace editor
