#pragma once

#include "LadderHandles.h"
#include "ModeColumn.h"

namespace editor
{

/** The pitch ladder: both heads' notes, the interval, and the drum's modes on one scale. */
class LadderView : public juce::Component
{
public:
    /** Notes as MIDI numbers with fractions, the interval in semitones. Setting one head's note leaves the other's where it is;
        `together` moves the batter and keeps the interval; so does `drumNote`. */
    struct Bindings
    {
        ValueBinding batter, resonant, interval, together, drumNote;
    };

    explicit LadderView (Bindings);

    void setScene (const Scene&);
    void setConcertPitch (modal::ConcertPitch);

    /** Moves the handles to their current values. */
    void refreshHandles();

    ModeColumn& modeColumn() noexcept { return modes; }
    NoteHandle& batterHandle() noexcept { return batter; }
    NoteHandle& resonantHandle() noexcept { return resonant; }
    NoteHandle& drumNoteHandle() noexcept { return drumNote; }
    GapHandle& gapHandle() noexcept { return gap; }
    const PitchScale& scaleOfPitch() const noexcept { return scale; }

    void paint (juce::Graphics&) override;
    void resized() override;
    void lookAndFeelChanged() override { repaint(); }

private:
    void chooseRange();
    void drawScale (juce::Graphics&) const;
    void drawSpan (juce::Graphics&) const;
    void drawIntervalNames (juce::Graphics&) const;
    void drawBefore (juce::Graphics&) const;

    NoteHandle batter, resonant, drumNote;
    GapHandle gap;
    ModeColumn modes;
    Scene scene;
    modal::ConcertPitch pitch;
    LadderLayout layout{ {} };
    PitchScale scale;
    double lowest = 0.0, highest = 0.0; ///< Hz; kept while all notes fit
    bool isRangeOfPrediction = false;   ///< else of the two notes alone
    double drawnBatter = 0.0, drawnResonant = 0.0;
};

} // namespace editor
