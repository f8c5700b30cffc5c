#pragma once

#include "CommandButton.h"
#include "WishField.h"

#include "Plugin/HeardTuning.h"

namespace editor
{

/** What a person can add to strikes: the note read off each head, and whether size and heads are certain. */
class KnownView : public juce::Component
{
public:
    KnownView();

    std::function<void()> onChange;
    std::function<void (const juce::String&)> onRefused;

    void setConcertPitch (modal::ConcertPitch newPitch) { pitch = newPitch; }

    /** What is entered. Notes that cannot be read are left out. */
    const plugin::KnownOfDrum& known() const noexcept { return entered; }

    WishField& batterField() noexcept { return batter; }
    WishField& resonantField() noexcept { return resonant; }
    juce::Button& sizeButton() noexcept { return size; }
    juce::Button& headsButton() noexcept { return heads; }

    void resized() override;

private:
    void read();

    modal::ConcertPitch pitch;
    plugin::KnownOfDrum entered;
    WishField batter, resonant;
    CommandButton size, heads;
};

} // namespace editor
