#include "KnownView.h"

#include "Strings.h"

#include <utility>

namespace editor
{
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

void KnownView::setConcertPitch (modal::ConcertPitch newPitch)
{
    if (std::exchange (pitch, newPitch).a4 != newPitch.a4)
        read();
}

void KnownView::read()
{
    plugin::KnownOfDrum now{ .isSizeUnsure = size.getToggleState(), .areHeadsUnsure = heads.getToggleState() };
    const auto readNote = [&] (WishField& field, const ControlText& words, std::optional<double>& note)
    {
        const auto refusal = field.read ([&] (const std::string& typed)
                                         { note = modal::Note::parse (typed, words.name.toStdString()).frequency (pitch); });
        if (refusal.isNotEmpty() && onRefused)
            onRefused (refusal);
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
