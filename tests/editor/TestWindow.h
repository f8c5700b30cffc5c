#pragma once

#include "Editor/Editor.h"

#include <atomic>
#include <memory>
#include <thread>

/** A processor that plays, its window on the desktop, and a person's hands: mouse and keyboard events enter at the window's peer,
   as those of the system do. Everything here is called from the test's thread. */
class TestWindow
{
public:
    explicit TestWindow (int width = 1200, int height = 740);
    ~TestWindow();

    plugin::Processor& processor() noexcept { return *drum; }
    editor::MainView& view() noexcept { return window->view(); }
    editor::Editor& editorWindow() noexcept { return *window; }

    void resize (int width, int height);
    void setTheme (const editor::Theme&);
    void setPage (editor::Page);

    // Hands.
    void click (juce::Component&, juce::Point<float> at, juce::ModifierKeys = {});
    void click (juce::Component&);
    void drag (juce::Component&, juce::Point<float> from, juce::Point<float> by, juce::ModifierKeys = {});
    /** The same without letting go; release() does. */
    void holdDrag (juce::Component&, juce::Point<float> from, juce::Point<float> by, juce::ModifierKeys = {});
    void release (juce::ModifierKeys = {});
    void hover (juce::Component&, juce::Point<float> at);
    void press (const juce::KeyPress&);
    void typeText (const juce::String&);
    /** Gives a control the keyboard, opens its entry with Return, types, and presses Return. */
    void enter (juce::Component&, const juce::String& text);
    void focus (juce::Component&);

    /** Waits until what is set has been solved, played through, and is shown. */
    bool settle();

    /** Waits for a strike's motion to show and holds it. */
    bool awaitMotion();

    /** Waits until the map page has computed and drawn what it is asked for. */
    bool awaitMap();

    /** Opens the map page and waits for the map. */
    bool openMap();

    /** What the line at the bottom says. */
    juce::String hint();

    /** Whether the host asks for audio. */
    void setPlayed (bool isPlayed) { isPaused = ! isPlayed; }

    /** A key of a MIDI keyboard, in the next block. */
    void playKey (int note) { keyDown = note; }

    /** Plays sound into the input, as fast as it is listened to, and waits until all of it was heard. */
    bool playToInput (const std::vector<double>& samples);

    double plain (plugin::Parameter which) { return drum->parameter (which).plainValue(); }
    modal::Prediction prediction() const;

    /** Keeps a picture of the window in the build folder, at one pixel a unit times `scale`. */
    juce::Image picture (const juce::String& name, float scale = 1.0f);

    juce::Button* buttonNamed (const juce::String& title);

private:
    void mouse (juce::Point<float> at, juce::ModifierKeys);
    juce::Point<float> inWindow (juce::Component&, juce::Point<float>) const;

    std::unique_ptr<plugin::Processor> drum;
    std::unique_ptr<editor::Editor> window;
    void playBlock (juce::AudioBuffer<float>&);

    std::atomic<bool> isPlaying{ true }, isPaused{ false };
    std::atomic<bool> isInputWaiting{ false }; ///< `input` is the audio thread's while this is true
    std::vector<float> input;
    std::size_t blocksUnheard = 0; ///< audio thread's: since the listener had caught up
    juce::Random room{ 1 };
    std::atomic<int> keyDown{ -1 };
    std::thread audio;
    juce::Point<float> heldAt;
    juce::int64 clock = 0; ///< ms of the last event
};
