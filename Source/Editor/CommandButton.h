#pragma once

#include "Look.h"

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

    /** A dot on the button: what it stands for is going on.
        @param meaning  for screen readers */
    void setDot (bool shouldShow, const char* meaning)
    {
        if (shouldShow == hasDot)
            return;
        hasDot = shouldShow;
        setDescription (hasDot ? meaning : "");
        repaint();
    }
    bool showsDot() const noexcept { return hasDot; }

    void paintButton (juce::Graphics& g, bool isOver, bool isDown) override
    {
        juce::TextButton::paintButton (g, isOver, isDown);
        if (! hasDot)
            return;
        g.setColour (getToggleState() ? themeOf (*this).paper : themeOf (*this).caution);
        g.fillEllipse (static_cast<float> (getWidth()) - 11.0f, 5.0f, 6.0f, 6.0f);
    }

private:
    bool hasDot = false;
};

} // namespace editor
