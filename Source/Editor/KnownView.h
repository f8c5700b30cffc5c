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

    /** Reads the notes again if it is another. */
    void setConcertPitch (modal::ConcertPitch);

    /** What is entered. Notes that cannot be read are left out. */
    const plugin::KnownOfDrum& known() const noexcept { return entered; }

    WishField& resonantField() noexcept { return resonant; }

    void resized() override;

private:
    void read();

    modal::ConcertPitch pitch;
    plugin::KnownOfDrum entered;
    WishField batter, resonant;
    CommandButton size, heads;
};

} // namespace editor
