// Keeps a picture of every view in every size and theme, and checks what can be checked about one without eyes.
#include "TestWindow.h"

#include "MessageThread.h"

#include "Editor/Strings.h"
#include "tests/Catch.h"

#include <set>

namespace
{

/** How many clearly different colours a picture has: an empty or a failed view has few. */
std::size_t coloursIn (const juce::Image& image)
{
    std::set<juce::uint32> found;
    const juce::Image::BitmapData pixels (image, juce::Image::BitmapData::readOnly);
    for (int y = 0; y < image.getHeight(); y += 3)
        for (int x = 0; x < image.getWidth(); x += 3)
            found.insert (pixels.getPixelColour (x, y).getARGB() & 0xfff8f8f8);
    return found.size();
}

struct Size
{
    int width, height;
    float scale;
};

} // namespace

TEST_CASE ("The window draws at every size, scale and theme")
{
    TestWindow window;
    REQUIRE (window.settle());
    window.click (*window.buttonNamed (editor::strings::keepTuning.name));
    window.enter (window.view().ladderView().gapHandle(), "P5");
    REQUIRE (window.settle());
    auto& batter = window.view().batterView();
    window.click (batter, fromMessageThread ([&] { return batter.head().getCentre() + juce::Point<float> (20.0f, -14.0f); }));
    REQUIRE (window.awaitMotion());
    REQUIRE (waitUntil ([&] { return window.processor().lastStrike().recordedSamples() > 60000; }));

    // A theme changes colours only: the dark one is drawn where the arrangement differs most, and magnified.
    const std::vector<Size> all{ { 800, 500, 1.0f },  { 800, 500, 2.0f },  { 800, 500, 3.0f },   { 1000, 620, 1.0f },
                                 { 1200, 740, 1.0f }, { 1200, 740, 2.0f }, { 1920, 1080, 1.0f }, { 800, 1200, 1.0f },
                                 { 2400, 700, 1.0f }, { 3840, 2160, 1.0f } },
        ofDark{ { 800, 500, 2.0f }, { 1200, 740, 1.0f }, { 1920, 1080, 1.0f } };
    for (const auto* theme : { &editor::Theme::light(), &editor::Theme::dark() })
    {
        window.setTheme (*theme);
        for (const auto& size : theme->isDark ? ofDark : all)
        {
            window.resize (size.width, size.height);
            const auto name = juce::String (size.width) + "x" + juce::String (size.height) + "@" + juce::String (size.scale, 0) +
                              (theme->isDark ? "-dark" : "-light");
            INFO (name);
            for (const auto& [page, word] :
                 { std::pair{ editor::Page::heads, "heads" }, std::pair{ editor::Page::sound, "sound" },
                   std::pair{ editor::Page::map, "map" }, std::pair{ editor::Page::setUp, "set-up" },
                   std::pair{ editor::Page::listen, "listen" } })
            {
                window.setPage (page);
                if (page == editor::Page::map)
                    REQUIRE (window.awaitMap());
                const auto image = window.picture (name + "-" + word, size.scale);
                CHECK (image.getWidth() == juce::roundToInt (size.scale * static_cast<float> (size.width)));
                CHECK (coloursIn (image) > 40);
            }
            window.setPage (editor::Page::heads);
        }
    }
}

TEST_CASE ("Colours keep the contrast that WCAG 2 asks of text, in both themes")
{
    // Web Content Accessibility Guidelines 2.1, success criteria 1.4.3 (text, 4.5:1) and 1.4.11 (graphics, 3:1).
    for (const auto* theme : { &editor::Theme::light(), &editor::Theme::dark() })
        for (const auto ground : { theme->paper, theme->sheet })
        {
            for (const auto text : { theme->ink, theme->quiet, theme->batter, theme->resonant, theme->drum, theme->caution })
                CHECK (editor::contrast (text, ground) >= 4.5);
            CHECK (editor::contrast (theme->mark, ground) >= 3.0);
        }
    CHECK (editor::contrast (juce::Colours::black, juce::Colours::white) == Approx (21.0)); // the guidelines' own figure
}

TEST_CASE ("Levels of a spectrogram differ by brightness alone, for eyes that do not tell its hues apart")
{
    for (const auto* theme : { &editor::Theme::light(), &editor::Theme::dark() })
    {
        double last = 0.99;
        for (int i = 0; i <= 20; ++i)
        {
            const double now = editor::contrast (theme->level (static_cast<float> (i) / 20.0f), theme->sheet);
            CHECK (now > last);
            last = now;
        }
        CHECK (last > 12.0);
    }
}
