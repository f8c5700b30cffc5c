#pragma once

#include "Plugin/TakeWriter.h"

#include <juce_gui_basics/juce_gui_basics.h>

namespace editor
{

/** Drags a take out of the window as a file, for a track of the host or a folder.

    The file is rendered while the mouse moves. It lies in the system's folder for temporary files, since a host may read it only
    after the drop; files older than a day are deleted when the next window opens. */
class DragOut
{
public:
    enum class Kind
    {
        audio,
        midi
    };

    /** @param folder  of the temporary files */
    explicit DragOut (juce::File folder = usualFolder());

    static juce::File usualFolder();

    /** Call when the mouse drags `source`. `name` becomes the file's. */
    void begin (juce::Component& source, Kind, const juce::String& name, plugin::TakeRequest, double tempo);

    std::function<void (const juce::String&)> onSay;

    /** Gives the files to the system's drag and drop; tests put their own in its place. */
    std::function<void (const juce::StringArray&, juce::Component& source)> handOver;

private:
    /** What was rendered last: the same need not be rendered again. */
    struct Ready
    {
        std::shared_ptr<const engine::DrumModel> model;
        plugin::Values values;
        juce::String name;
        Kind kind;
        plugin::TakeFiles files;
    };

    void deliver();

    juce::File folder;
    juce::Component::SafePointer<juce::Component> dragged;
    std::optional<Ready> ready, pending;
    plugin::TakeWriter writer;
};

} // namespace editor
