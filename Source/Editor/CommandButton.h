#pragma once

#include "Look.h"

namespace editor
{

/** Text of a button: label, accessible name, tooltip. */
struct CommandText
{
    const char* face;
    const char* name;
    const char* tip;
};

/** A button with a tooltip and an accessible name. */
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

    /** Shows a dot on the button while its activity is running.
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
