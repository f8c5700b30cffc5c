#pragma once

#include <juce_gui_basics/juce_gui_basics.h>

namespace editor
{

/** Words of a button: what is on it, what it is called, and one sentence on what it does. */
struct CommandText
{
    const char* face;
    const char* name;
    const char* tip;
};

/** A button that does something. */
class CommandButton : public juce::TextButton
{
public:
    CommandButton (const CommandText& words, std::function<void()> action) : juce::TextButton (words.face)
    {
        setTitle (words.name);
        setTooltip (words.tip);
        setHelpText (words.tip);
        onClick = std::move (action);
    }
};

} // namespace editor
