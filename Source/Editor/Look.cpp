#include "Look.h"

#include "Typeface.h"

namespace editor
{

Look::Look()
{
    setTheme (Theme::light());
}

void Look::setTheme (const Theme& theme)
{
    current = &theme;
    setColour (juce::ResizableWindow::backgroundColourId, theme.paper);
    setColour (juce::TextEditor::textColourId, theme.ink);
    setColour (juce::TextEditor::backgroundColourId, theme.sheet);
    setColour (juce::TextEditor::highlightColourId, theme.batter.withAlpha (0.3f));
    setColour (juce::TextEditor::highlightedTextColourId, theme.ink);
    setColour (juce::CaretComponent::caretColourId, theme.ink);
    setColour (juce::TextButton::textColourOffId, theme.ink);
    setColour (juce::TextButton::textColourOnId, theme.paper);
    setColour (juce::PopupMenu::backgroundColourId, theme.sheet);
    setColour (juce::PopupMenu::textColourId, theme.ink);
    setColour (juce::PopupMenu::headerTextColourId, theme.quiet);
    setColour (juce::PopupMenu::highlightedBackgroundColourId, theme.ink);
    setColour (juce::PopupMenu::highlightedTextColourId, theme.paper);
    setColour (juce::ScrollBar::thumbColourId, theme.quiet);
    setColour (juce::Label::textColourId, theme.ink);
    setColour (juce::ProgressBar::backgroundColourId, theme.sheet);
    setColour (juce::ProgressBar::foregroundColourId, theme.line);
    setColour (juce::AlertWindow::backgroundColourId, theme.sheet);
    setColour (juce::AlertWindow::textColourId, theme.ink);
}

void Look::drawButtonBackground (juce::Graphics& g, juce::Button& button, const juce::Colour&, bool isOver, bool isDown)
{
    const auto area = button.getLocalBounds().toFloat().reduced (1.5f);
    const float corner = 4.0f;

    if (button.getToggleState() || isDown)
    {
        g.setColour (current->ink);
        g.fillRoundedRectangle (area, corner);
    }
    else
    {
        g.setColour (isOver && button.isEnabled() ? current->line : current->sheet);
        g.fillRoundedRectangle (area, corner);
        g.setColour (current->line);
        g.drawRoundedRectangle (area, corner, 1.0f);
    }
    drawFocus (g, button, button.getLocalBounds().toFloat());
}

void Look::drawButtonText (juce::Graphics& g, juce::TextButton& button, bool, bool isDown)
{
    g.setFont (getTextButtonFont (button, button.getHeight()));
    g.setColour (! button.isEnabled() ? current->mark : button.getToggleState() || isDown ? current->paper : current->ink);
    g.drawFittedText (button.getButtonText(), button.getLocalBounds().reduced (5, 1), juce::Justification::centred, 2, 0.85f);
}

juce::Font Look::getTextButtonFont (juce::TextButton&, int)
{
    return fonts::text();
}

juce::Font Look::getPopupMenuFont()
{
    return fonts::text();
}

void Look::fillTextEditorBackground (juce::Graphics& g, int width, int height, juce::TextEditor&)
{
    g.setColour (current->sheet);
    g.fillRoundedRectangle (0.0f, 0.0f, static_cast<float> (width), static_cast<float> (height), 3.0f);
}

void Look::drawTextEditorOutline (juce::Graphics& g, int width, int height, juce::TextEditor& entry)
{
    const bool isFocused = entry.hasKeyboardFocus (true);
    g.setColour (isFocused ? current->ink : current->mark);
    g.drawRoundedRectangle (juce::Rectangle<int> (width, height).toFloat().reduced (0.75f), 3.0f, isFocused ? 1.5f : 1.0f);
}

void Look::drawScrollbar (juce::Graphics& g, juce::ScrollBar&, int x, int y, int width, int height, bool isVertical,
                          int thumbStart, int thumbSize, bool isOver, bool isDown)
{
    const auto thumb = isVertical ? juce::Rectangle<int> (x, thumbStart, width, thumbSize).reduced (2, 0)
                                  : juce::Rectangle<int> (thumbStart, y, thumbSize, height).reduced (0, 2);
    g.setColour (current->quiet.withAlpha (isOver || isDown ? 0.8f : 0.4f));
    g.fillRoundedRectangle (thumb.toFloat(), 2.0f);
}

void Look::drawPopupMenuBackground (juce::Graphics& g, int width, int height)
{
    g.fillAll (current->sheet);
    g.setColour (current->line);
    g.drawRect (0, 0, width, height);
}

const Theme& themeOf (const juce::Component& component)
{
    const auto* look = dynamic_cast<const Look*> (&component.getLookAndFeel());
    return look != nullptr ? look->theme() : Theme::light();
}

namespace fonts
{
namespace
{

/** JUCE looks up typefaces by name in its default look and feel, so each font carries its typeface. */
juce::Font make (float height, bool isBold)
{
    return juce::Font (typeface (isBold)).withHeight (height);
}

} // namespace

juce::Font small()
{
    return make (11.5f, false);
}

juce::Font text()
{
    return make (13.5f, false);
}

juce::Font strong()
{
    return make (14.0f, true);
}

juce::Font title()
{
    return make (12.5f, true);
}

juce::Font display()
{
    return make (21.0f, true);
}
} // namespace fonts

void drawFocus (juce::Graphics& g, const juce::Component& component, juce::Rectangle<float> area)
{
    if (! component.hasKeyboardFocus (false))
        return;
    g.setColour (themeOf (component).ink);
    g.drawRoundedRectangle (area.reduced (0.75f), 5.0f, 1.5f);
}

} // namespace editor
