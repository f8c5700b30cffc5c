#include "KnownView.h"

#include "NoteText.h"
#include "Strings.h"

#include "Modal/InputError.h"

namespace editor
{
namespace
{

/** Hz of a note that was typed; none if nothing was. @throws modal::InputError */
std::optional<double> noteIn (const WishField& field, const juce::String& name, modal::ConcertPitch pitch)
{
    const auto text = plainSigns (field.text()).toStdString();
    return text.empty() ? std::nullopt : std::optional (modal::Note::parse (text, name.toStdString()).frequency (pitch));
}

} // namespace

KnownView::KnownView()
    : batter (strings::batterNoteRead()), resonant (strings::resonantNoteRead()), size (strings::sizeUnsure, [this] { read(); }),
      heads (strings::headsUnsure, [this] { read(); })
{
    setTitle (strings::knownTitle);
    for (auto* field : { &batter, &resonant })
    {
        field->setExample (strings::noteExample);
        field->onEntered = [this] { read(); };
        addAndMakeVisible (*field);
    }
    for (auto* button : { &size, &heads })
    {
        button->setClickingTogglesState (true);
        addAndMakeVisible (*button);
    }
}

void KnownView::read()
{
    plugin::KnownOfDrum now{ .isSizeUnsure = size.getToggleState(), .areHeadsUnsure = heads.getToggleState() };
    const auto readNote = [&] (WishField& field, const ControlText& words, std::optional<double>& note)
    {
        try
        {
            note = noteIn (field, words.name, pitch);
            field.setRefused (false);
        }
        catch (const modal::InputError& error)
        {
            field.setRefused (true);
            if (onRefused)
                onRefused (juce::String::fromUTF8 (error.what()));
        }
    };
    readNote (batter, strings::batterNoteRead(), now.batterNote);
    readNote (resonant, strings::resonantNoteRead(), now.resonantNote);
    if (now == entered)
        return;
    entered = now;
    if (onChange)
        onChange();
}

void KnownView::resized()
{
    auto area = getLocalBounds();
    constexpr int space = 6;
    auto notes = area.removeFromTop ((area.getHeight() - 4) / 2);
    batter.setBounds (notes.removeFromLeft ((notes.getWidth() - space) / 2));
    resonant.setBounds (notes.withTrimmedLeft (space));
    auto unsure = area.withTrimmedTop (4);
    size.setBounds (unsure.removeFromLeft ((unsure.getWidth() - space) / 2));
    heads.setBounds (unsure.withTrimmedLeft (space));
}

} // namespace editor
