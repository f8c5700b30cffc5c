#pragma once

#include "Theme.h"

namespace editor
{

/** Look and feel of JUCE's widgets, and the source of colours and fonts for all views. */
class Look : public juce::LookAndFeel_V4
{
public:
    Look();

    void setTheme (const Theme&);
    const Theme& theme() const noexcept { return *current; }

    void drawButtonBackground (juce::Graphics&, juce::Button&, const juce::Colour&, bool isOver, bool isDown) override;
    void drawButtonText (juce::Graphics&, juce::TextButton&, bool isOver, bool isDown) override;
    juce::Font getTextButtonFont (juce::TextButton&, int height) override;
    juce::Font getPopupMenuFont() override;
    void fillTextEditorBackground (juce::Graphics&, int width, int height, juce::TextEditor&) override;
    void drawTextEditorOutline (juce::Graphics&, int width, int height, juce::TextEditor&) override;
    void drawScrollbar (juce::Graphics&, juce::ScrollBar&, int x, int y, int width, int height, bool isVertical, int thumbStart,
                        int thumbSize, bool isOver, bool isDown) override;
    void drawPopupMenuBackground (juce::Graphics&, int width, int height) override;

private:
    const Theme* current = nullptr;
};

/** The theme of the component's window; the light one if it is in none. */
const Theme& themeOf (const juce::Component&);

/** Fonts of the window, in its own units: one family, two weights. */
namespace fonts
{
juce::Font small();   ///< scales and ticks
juce::Font text();    ///< most text
juce::Font strong();  ///< names and values that matter
juce::Font title();   ///< headings of views
juce::Font display(); ///< the interval and the product name
} // namespace fonts

/** Draws the frame of the keyboard focus if the component has it. */
void drawFocus (juce::Graphics&, const juce::Component&, juce::Rectangle<float>);

} // namespace editor
