#include "Layout.h"

namespace editor
{
namespace
{

constexpr int margin = 12, gap = 14;
constexpr float designedWidth = 1280.0f, designedHeight = 760.0f;

int share (float part, int whole, int least, int most)
{
    return juce::jlimit (least, most, juce::roundToInt (part * static_cast<float> (whole)));
}

} // namespace

Layout::Layout (int width, int height, Page page)
{
    auto rest = juce::Rectangle<int> (width, height).reduced (margin, 0);
    header = rest.removeFromTop (height < 560 ? 40 : 44);
    hint = rest.removeFromBottom (24);
    patterns = rest.removeFromBottom (32);
    audition = rest.removeFromBottom (36);
    kept = rest.removeFromBottom (32);
    rest.removeFromBottom (4);

    const bool isNarrow = width < 1000;
    hasSoundStrip = (! isNarrow && rest.getHeight() >= 500) || rest.getHeight() >= 760;

    if (page == Page::listen)
    {
        listen = rest;
        return;
    }

    if (hasSoundStrip)
    {
        auto strip = rest.removeFromBottom (share (0.27f, rest.getHeight(), 140, 240));
        rest.removeFromBottom (gap);
        decay = strip.removeFromRight (share (0.36f, strip.getWidth(), 200, 900));
        strip.removeFromRight (gap);
        spectrum = strip;
    }

    if (page == Page::map)
    {
        result = rest.removeFromRight (share (0.295f, width, 236, 460));
        rest.removeFromRight (gap);
        map = rest;
        return;
    }

    auto left = rest.removeFromLeft (share (isNarrow ? 0.315f : 0.37f, width, 250, 900));
    rest.removeFromLeft (gap);
    result = rest.removeFromRight (share (0.295f, width, 236, 460));
    rest.removeFromRight (gap);
    ladder = rest;

    if (page == Page::setUp)
        setUp = left;
    else if (page == Page::sound && ! hasSoundStrip)
    {
        decay = left.removeFromBottom (left.getHeight() * 2 / 5);
        left.removeFromBottom (gap);
        spectrum = left;
    }
    else
    {
        // The heads take as much room as their circles can use; in a tall window they stand one below the other.
        const bool stands = left.getHeight() > 2 * left.getWidth();
        const int wanted = stands ? 2 * (left.getWidth() + 18) : left.getWidth() / 2 + 18;
        auto plans = left.removeFromBottom (juce::jmin (wanted, left.getHeight() * (stands ? 70 : 62) / 100));
        section = left.withTrimmedBottom (4);
        batter = stands ? plans.removeFromTop (plans.getHeight() / 2) : plans.removeFromLeft (plans.getWidth() / 2);
        resonant = plans;
    }
}

float magnification (int width, int height)
{
    return juce::jlimit (1.0f, 3.2f,
                         juce::jmin (static_cast<float> (width) / designedWidth, static_cast<float> (height) / designedHeight));
}

} // namespace editor
