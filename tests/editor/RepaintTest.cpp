// Nothing is repainted without a change; while the heads move only they are.
#include "TestWindow.h"

#include "MessageThread.h"

#include "Editor/Strings.h"

#include "tests/Catch.h"

#include <ctime>
#include <utility>

namespace
{

/** Records what a component asks to repaint. */
class Watch : public juce::CachedComponentImage
{
public:
    void paint (juce::Graphics&) override {}
    bool invalidateAll() override
    {
        ++count;
        everything = true;
        return true;
    }
    bool invalidate (const juce::Rectangle<int>& area) override
    {
        ++count;
        areas.add (area);
        return true;
    }
    void releaseResources() override {}

    int count = 0;
    bool everything = false;
    juce::RectangleList<int> areas;
};

/** CPU time of this thread, s. */
double threadTime()
{
    timespec time{};
    clock_gettime (CLOCK_THREAD_CPUTIME_ID, &time);
    return static_cast<double> (time.tv_sec) + 1.0e-9 * static_cast<double> (time.tv_nsec);
}

double paintTime (juce::Component& view, juce::Image& into, juce::Rectangle<int> clip)
{
    double best = 1.0e9;
    for (int i = 0; i < 5; ++i)
    {
        juce::Graphics g (into);
        g.reduceClipRegion (clip);
        const double start = threadTime();
        view.paintEntireComponent (g, false);
        best = std::min (best, threadTime() - start);
    }
    return best;
}

} // namespace

TEST_CASE ("Nothing is drawn while nothing changes; a strike draws the heads only")
{
    TestWindow window;
    REQUIRE (window.settle());
    auto* watch = new Watch; // the component takes it over
    int looks = 0;
    onMessageThread ([&] { window.view().setCachedComponentImage (watch); });
    // Setting it causes repaints, and earlier ones may be pending.
    REQUIRE (waitUntil (
        [&]
        {
            ++looks;
            looks = std::exchange (watch->count, 0) == 0 ? looks : 0;
            return looks > 20;
        }));
    onMessageThread ([&] { watch->areas.clear(); });
    juce::Thread::sleep (800); // whatever the machine's speed, there is nothing to draw
    const auto drawn = fromMessageThread ([&] { return watch->areas.getBounds().toString().toStdString(); });
    INFO ("drawn: " << drawn);
    CHECK (fromMessageThread ([&] { return watch->count; }) == 0);

    window.press (juce::KeyPress ('2', {}, '2'));
    REQUIRE (window.awaitMotion());
    // The ring that marks the stroke's place has been drawn, and the first sound looked at.
    REQUIRE (waitUntil ([&] { return window.processor().lastStrike().recordedSamples() > 12000; }));
    REQUIRE (waitUntil ([&] { return ! window.view().keeper().isBusy(); }));
    onMessageThread (
        [&]
        {
            watch->areas.clear();
            watch->everything = false;
        });
    REQUIRE (waitUntil ([&] { return ! watch->areas.isEmpty(); }));
    onMessageThread (
        [&]
        {
            auto& view = window.view();
            CHECK (! watch->everything);
            CHECK (! watch->areas.intersectsRectangle (view.ladderView().getBounds()));
            CHECK (! watch->areas.intersectsRectangle (view.resultView().getBounds()));
            CHECK (! watch->areas.intersectsRectangle (view.auditionBar().getBounds()));
            CHECK (! watch->areas.intersectsRectangle (view.headerBar().getBounds()));
        });
    onMessageThread ([&] { window.view().setCachedComponentImage (nullptr); });
}

// Not among the tests, since it measures the machine too: editor-tests "[benchmark]".
TEST_CASE ("A frame of the moving drum is painted within a sixtieth of a second in software", "[.benchmark]")
{
    TestWindow window;
    REQUIRE (window.settle());
    window.press (juce::KeyPress ('2', {}, '2'));
    REQUIRE (window.awaitMotion());
    std::printf ("Paint time a frame, ms of one core, JUCE's software renderer\n%-12s %8s %8s %8s %8s %8s %8s %8s %8s %9s %9s\n",
                 "window", "section", "batter", "resonant", "ladder", "result", "spectrum", "decay", "all", "a frame",
                 "a second");
    for (const auto& [width, height] :
         { std::pair{ 800, 500 }, std::pair{ 1200, 740 }, std::pair{ 1920, 1080 }, std::pair{ 3840, 2160 } })
    {
        window.resize (width, height);
        window.press (juce::KeyPress ('2', {}, '2'));
        juce::Thread::sleep (300);
        onMessageThread (
            [&, w = width, h = height]
            {
                auto& view = window.view();
                juce::Image image (juce::Image::RGB, w, h, true);
                const auto timeOf = [&] (juce::Component& part)
                {
                    return part.isVisible()
                               ? 1000.0 * paintTime (window.editorWindow(), image,
                                                     window.editorWindow().getLocalArea (&part, part.getLocalBounds()))
                               : 0.0;
                };
                const double section = timeOf (view.sectionView()), batter = timeOf (view.batterView()),
                             resonant = timeOf (view.resonantView());
                const double frame = section + batter + resonant;
                std::printf ("%4d x %-5d %8.2f %8.2f %8.2f %8.2f %8.2f %8.2f %8.2f %8.2f %9.2f %9.0f\n", w, h, section, batter,
                             resonant, timeOf (view.ladderView()), timeOf (view.resultView()), timeOf (view.spectrumView()),
                             timeOf (view.decayView()), 1000.0 * paintTime (window.editorWindow(), image, image.getBounds()),
                             frame, 1000.0 / frame);
                CHECK (frame < 1000.0 / 60.0);
            });
    }
}

TEST_CASE ("A frame of the spectrogram is painted within a thirtieth of a second in software", "[.benchmark]")
{
    TestWindow window;
    window.click (*window.buttonNamed (editor::strings::listenPage.name));
    auto& spectrogram = window.view().listenView().spectrogramView();
    std::printf (
        "Spectrogram, ms of one core, JUCE's software renderer; frames drawn on the virtual display\n%-12s %9s %9s %9s\n",
        "window", "a frame", "a second", "drawn");
    for (const auto& [width, height] :
         { std::pair{ 800, 500 }, std::pair{ 1200, 740 }, std::pair{ 1920, 1080 }, std::pair{ 3840, 2160 } })
    {
        window.resize (width, height);
        juce::Thread::sleep (200);
        const auto drawn = [&] { return fromMessageThread ([&] { return spectrogram.framesDrawn(); }); };
        const int before = drawn();
        juce::Thread::sleep (2000);
        const double perSecond = 0.5 * (drawn() - before);
        onMessageThread (
            [&, w = width, h = height]
            {
                juce::Image image (juce::Image::RGB, w, h, true);
                const double frame = paintTime (window.editorWindow(), image,
                                                window.editorWindow().getLocalArea (&spectrogram, spectrogram.getLocalBounds()));
                std::printf ("%4d x %-5d %9.2f %9.0f %9.1f\n", w, h, 1000.0 * frame, 1.0 / frame, perSecond);
                CHECK (frame < 1.0 / 30.0);
            });
    }
}
