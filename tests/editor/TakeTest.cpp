// Strokes and patterns leave the window as files: by dragging, and by rendering.
#include "TestWindow.h"

#include "MessageThread.h"

#include "Editor/Strings.h"
#include "tests/Catch.h"

#include <juce_audio_basics/juce_audio_basics.h>

namespace
{

/** Catches the files that would go to the system's drag and drop. */
juce::File dragged (TestWindow& window, juce::Component& button, juce::ModifierKeys keys = {})
{
    juce::StringArray files;
    onMessageThread (
        [&] {
            window.view().patternBar().dragOut().handOver = [&] (const juce::StringArray& paths, juce::Component&)
            { files = paths; };
        });
    window.holdDrag (button, { 10.0f, 10.0f }, { 0.0f, -60.0f }, keys);
    CHECK (waitUntil ([&] { return ! files.isEmpty(); }));
    window.release (keys);
    REQUIRE (files.size() == 1);
    return juce::File (files[0]);
}

} // namespace

TEST_CASE ("A stroke and the pattern are dragged out as audio and as MIDI")
{
    TestWindow window;
    REQUIRE (window.settle());
    const auto sound = dragged (window, *window.buttonNamed ("Rimshot"));
    CHECK (sound.getFileName() == "Rimshot.wav");
    CHECK (sound.getSize() > 100000);

    const auto note = dragged (window, *window.buttonNamed ("Rimshot"), juce::ModifierKeys::shiftModifier);
    CHECK (note.getFileName() == "Rimshot.mid");

    const auto part = dragged (window, *window.buttonNamed (editor::strings::dragMidi.name));
    juce::MidiFile midi;
    auto stream = part.createInputStream();
    REQUIRE (stream != nullptr);
    CHECK (midi.readFrom (*stream));
    CHECK (dragged (window, *window.buttonNamed (editor::strings::dragAudio.name)).getSize() > 100000);
    for (const auto& file : { sound, note, part })
        file.getParentDirectory().deleteRecursively();
}

TEST_CASE ("What was dragged a day ago is deleted when a window opens")
{
    const auto folder = juce::File::getCurrentWorkingDirectory().getChildFile ("dragged");
    const auto old = folder.getChildFile ("old"), fresh = folder.getChildFile ("fresh");
    for (const auto& each : { old, fresh })
        REQUIRE (each.createDirectory().wasOk());
    REQUIRE (old.setLastModificationTime (juce::Time::getCurrentTime() - juce::RelativeTime::days (1.5)));
    onMessageThread ([&] { const editor::DragOut opened (folder); });
    CHECK_FALSE (old.exists());
    CHECK (fresh.exists());
    folder.deleteRecursively();
}

TEST_CASE ("The pattern is rendered to files, with a progress bar that a press of Cancel ends")
{
    TestWindow window;
    REQUIRE (window.settle());
    const auto folder = juce::File::getCurrentWorkingDirectory().getChildFile ("rendered");
    folder.deleteRecursively();
    REQUIRE (folder.createDirectory().wasOk());
    auto& bar = window.view().patternBar();
    auto* button = window.buttonNamed (editor::strings::renderPattern.name);

    onMessageThread ([&] { bar.render (16, folder.getChildFile ("Long.wav")); });
    CHECK (fromMessageThread ([&] { return button->getButtonText(); }) == editor::strings::cancelRender);
    window.picture ("rendering");
    window.click (*button);
    CHECK_FALSE (fromMessageThread ([&] { return bar.isRendering(); }));
    CHECK (window.hint() == editor::strings::renderCancelled);
    CHECK (folder.getNumberOfChildFiles (juce::File::findFiles) == 0);

    onMessageThread ([&] { bar.render (1, folder.getChildFile ("Groove.wav")); });
    CHECK (waitUntil ([&] { return window.view().hintLine().shown().contains ("Groove.wav"); }));
    for (const char* name : { "Groove.wav", "Groove-above.wav", "Groove-below.wav", "Groove-distant.wav", "Groove.mid" })
        CHECK (folder.getChildFile (name).existsAsFile());
    CHECK (fromMessageThread ([&] { return button->getButtonText(); }) == editor::strings::renderPattern.face);
    folder.deleteRecursively();
}
