#include "WishField.h"

#include "Look.h"
#include "NoteText.h"

#include "Modal/InputError.h"

namespace editor
{

WishField::WishField (const ControlText& words) : name (words.name)
{
    entry.setTitle (words.name);
    entry.setTooltip (words.tip);
    entry.setHelpText (words.tip);
    entry.setFont (fonts::text());
    entry.setSelectAllWhenFocused (true);
    entry.onReturnKey = [this] { enter(); };
    entry.onFocusLost = [this] { enter(); };
    entry.onEscapeKey = [this] { entry.setText (entered, false); };
    addAndMakeVisible (entry);
}

void WishField::enter()
{
    if (text() == entered)
        return;
    entered = text();
    if (onEntered)
        onEntered();
}

void WishField::setText (const juce::String& typed)
{
    entry.setText (typed, false);
    enter();
}

void WishField::setExample (const juce::String& words)
{
    example = words;
    entry.setTextToShowWhenEmpty (example, themeOf (*this).quiet);
    entry.repaint();
}

juce::String WishField::read (const std::function<void (const std::string&)>& reader)
{
    juce::String refusal;
    try
    {
        if (text().isNotEmpty())
            reader (plainSigns (text()).toStdString());
    }
    catch (const modal::InputError& error)
    {
        refusal = juce::String::fromUTF8 (error.what());
    }
    setRefused (refusal.isNotEmpty());
    return refusal;
}

void WishField::setRefused (bool refused)
{
    isRefused = refused;
    repaint();
}

void WishField::paint (juce::Graphics& g)
{
    const auto& theme = themeOf (*this);
    g.setColour (isRefused ? theme.caution : theme.ink);
    g.setFont (fonts::text());
    g.drawFittedText (name, getLocalBounds().withRight (entry.getX() - 4), juce::Justification::centredLeft, 1, 0.75f);
}

void WishField::resized()
{
    entry.setBounds (getLocalBounds().removeFromRight (juce::jmin (104, getWidth() * 11 / 20)));
}

void WishField::lookAndFeelChanged()
{
    setExample (example);
    entry.applyFontToAllText (fonts::text());
    repaint();
}

} // namespace editor
