#include "TestWindow.h"

#include "MessageThread.h"

namespace
{

constexpr double rate = 48000.0;
constexpr int block = 480;

juce::Button* findButton (juce::Component& within, const juce::String& title)
{
    for (auto* child : within.getChildren())
    {
        if (auto* button = dynamic_cast<juce::Button*> (child); button != nullptr && button->getTitle() == title)
            return button;
        if (auto* found = findButton (*child, title))
            return found;
    }
    return nullptr;
}

/** A drum and its tuning as a file: two that are the same have the same. */
std::string documentOf (const plugin::DrumRequest& request)
{
    files::DrumFile file;
    file.drum = request.drum;
    file.weather = request.weather;
    file.tunings = { request.tuning };
    return files::writeDrum (file);
}

} // namespace

TestWindow::TestWindow (int width, int height)
{
    onMessageThread (
        [&]
        {
            drum = std::make_unique<plugin::Processor> (
                editor::makeEditor,
                plugin::PresetLibrary (juce::File::getCurrentWorkingDirectory().getChildFile ("test-presets")));
            drum->setPlayConfigDetails (2, 2, rate, block);
            drum->prepareToPlay (rate, block);
            window = std::make_unique<editor::Editor> (*drum);
            window->setTheme (editor::Theme::light());
            window->addToDesktop (0);
            window->setBounds (0, 0, width, height);
            window->setVisible (true);
            window->getPeer()->grabFocus();
        });
    // The display may take its time to give a new window the keyboard, without which keys are lost.
    waitUntil (
        [this]
        {
            if (! view().hasKeyboardFocus (true))
                view().grabKeyboardFocus();
            return view().hasKeyboardFocus (true);
        });
    audio = std::thread (
        [this]
        {
            juce::AudioBuffer<float> buffer (2, block);
            while (isPlaying)
            {
                if (! isPaused)
                    playBlock (buffer);
                juce::Thread::sleep (5);
            }
        });
    clock = juce::Time::currentTimeMillis();
}

void TestWindow::playBlock (juce::AudioBuffer<float>& buffer)
{
    juce::MidiBuffer midi;
    if (isInputWaiting)
    {
        for (std::size_t done = 0; done < input.size(); done += block)
        {
            for (int i = 0; i < block; ++i)
            {
                const auto at = done + static_cast<std::size_t> (i);
                for (int channel = 0; channel < 2; ++channel)
                    buffer.setSample (channel, i, at < input.size() ? input[at] : 0.0f);
            }
            drum->processBlock (buffer, midi);
            while (done % (20 * block) == 0 && ! drum->listener().isCaughtUp())
                juce::Thread::sleep (1);
        }
        isInputWaiting = false;
    }
    // On a busy machine the listener may fall behind the clock: sound waits for it rather than being lost.
    if (drum->listener().isCaughtUp())
        blocksUnheard = 0;
    else if (++blocksUnheard * block > plugin::InputRing::capacity / 2)
        return;

    // No room is as silent as zeros, which the window would take for a missing cable.
    for (int channel = 0; channel < buffer.getNumChannels(); ++channel)
        for (int i = 0; i < block; ++i)
            buffer.setSample (channel, i, 1.0e-6f * room.nextFloat());

    if (const int note = keyDown.exchange (-1); note >= 0)
        midi.addEvent (juce::MidiMessage::noteOn (10, note, static_cast<juce::uint8> (100)), 0);
    drum->processBlock (buffer, midi);
}

bool TestWindow::playToInput (const std::vector<double>& samples)
{
    input.assign (samples.begin(), samples.end());
    isInputWaiting = true;
    return waitUntil ([&] { return ! isInputWaiting && drum->listener().isCaughtUp(); });
}

TestWindow::~TestWindow()
{
    isPlaying = false;
    audio.join();
    onMessageThread (
        [&]
        {
            window.reset();
            drum.reset();
        });
}

void TestWindow::resize (int width, int height)
{
    onMessageThread ([&] { window->setSize (width, height); });
}

void TestWindow::setTheme (const editor::Theme& theme)
{
    onMessageThread ([&] { window->setTheme (theme); });
}

void TestWindow::setPage (editor::Page page)
{
    onMessageThread ([&] { view().setPage (page); });
}

juce::Point<float> TestWindow::inWindow (juce::Component& component, juce::Point<float> at) const
{
    return window->getLocalPoint (&component, at);
}

void TestWindow::mouse (juce::Point<float> at, juce::ModifierKeys modifiers)
{
    clock += 15;
    // What the keyboard holds down; an event brings only the mouse's buttons.
    juce::ModifierKeys::currentModifiers = modifiers.withoutMouseButtons();
    window->getPeer()->handleMouseEvent (juce::MouseInputSource::InputSourceType::mouse, at, modifiers,
                                         juce::MouseInputSource::defaultPressure, juce::MouseInputSource::defaultOrientation,
                                         clock);
}

void TestWindow::click (juce::Component& component, juce::Point<float> at, juce::ModifierKeys modifiers)
{
    onMessageThread (
        [&]
        {
            const auto place = inWindow (component, at);
            clock += 1000; // never a double click
            mouse (place, modifiers);
            mouse (place, modifiers.withFlags (juce::ModifierKeys::leftButtonModifier));
            mouse (place, modifiers);
        });
}

void TestWindow::click (juce::Component& component)
{
    click (component, fromMessageThread ([&] { return component.getLocalBounds().toFloat().getCentre(); }));
}

void TestWindow::drag (juce::Component& component, juce::Point<float> from, juce::Point<float> by, juce::ModifierKeys modifiers)
{
    holdDrag (component, from, by, modifiers);
    release (modifiers);
}

void TestWindow::holdDrag (juce::Component& component, juce::Point<float> from, juce::Point<float> by,
                           juce::ModifierKeys modifiers)
{
    onMessageThread (
        [&]
        {
            // Found once: what is dragged moves along.
            const auto start = inWindow (component, from), end = inWindow (component, from + by);
            const auto held = modifiers.withFlags (juce::ModifierKeys::leftButtonModifier);
            clock += 1000;
            mouse (start, modifiers);
            mouse (start, held);
            for (int i = 1; i <= 8; ++i)
                mouse (start + (end - start) * (static_cast<float> (i) / 8.0f), held);
            heldAt = end;
        });
}

void TestWindow::release (juce::ModifierKeys modifiers)
{
    onMessageThread ([&] { mouse (heldAt, modifiers); });
}

void TestWindow::hover (juce::Component& component, juce::Point<float> at)
{
    onMessageThread ([&] { mouse (inWindow (component, at), {}); });
}

void TestWindow::press (const juce::KeyPress& key)
{
    onMessageThread ([&] { window->getPeer()->handleKeyPress (key); });
}

void TestWindow::typeText (const juce::String& text)
{
    for (auto letter = text.getCharPointer(); ! letter.isEmpty();)
    {
        const auto character = letter.getAndAdvance();
        press (juce::KeyPress (static_cast<int> (character), {}, character));
    }
}

void TestWindow::focus (juce::Component& component)
{
    onMessageThread ([&] { component.grabKeyboardFocus(); });
}

void TestWindow::enter (juce::Component& component, const juce::String& text)
{
    focus (component);
    press (juce::KeyPress (juce::KeyPress::returnKey));
    typeText (text);
    press (juce::KeyPress (juce::KeyPress::returnKey));
    onMessageThread ([] {}); // the entry takes Return with a message of its own
}

bool TestWindow::settle()
{
    int quiet = 0;
    return waitUntil (
        [&]
        {
            const auto solved = drum->solvedDrum();
            const bool isShown = solved != nullptr &&
                                 documentOf (solved->request) == documentOf (plugin::requestOf (drum->effectiveValues())) &&
                                 view().keeper().scene().model == solved->model && view().keeper().scene().played != nullptr &&
                                 ! view().keeper().isBusy();
            quiet = isShown ? quiet + 1 : 0;
            return quiet > 5; // 50 ms: longer than MainView's timer; isBusy() covers slower work
        });
}

bool TestWindow::openMap()
{
    const bool isSettled = settle();
    click (*buttonNamed (editor::strings::mapPage.name));
    return isSettled && awaitMap();
}

juce::String TestWindow::hint()
{
    return fromMessageThread ([&] { return view().hintLine().shown(); });
}

bool TestWindow::awaitMap()
{
    return waitUntil (
        [&]
        {
            auto& map = view().mapView();
            return ! map.isBusy() && (map.mapPlot().picture() != nullptr || map.keeper().refusal().isNotEmpty());
        });
}

bool TestWindow::awaitMotion()
{
    return waitUntil ([&] { return view().animator().isMoving(); });
}

modal::Prediction TestWindow::prediction() const
{
    return drum->solvedDrum()->prediction;
}

juce::Image TestWindow::picture (const juce::String& name, float scale)
{
    return fromMessageThread (
        [&]
        {
            const auto image = window->createComponentSnapshot (window->getLocalBounds(), true, scale);
            const auto folder = juce::File::getCurrentWorkingDirectory().getChildFile ("pictures");
            folder.createDirectory();
            const auto file = folder.getChildFile (name + ".png");
            file.deleteFile();
            juce::FileOutputStream out (file);
            juce::PNGImageFormat().writeImageToStream (image, out);
            return image;
        });
}

juce::Button* TestWindow::buttonNamed (const juce::String& title)
{
    return fromMessageThread ([&] { return findButton (*window, title); });
}
