#pragma once

#include "RovingFocus.h"

#include "Fitting/Drum.h"
#include "Modal/pitch/Note.h"

#include <juce_gui_basics/juce_gui_basics.h>

namespace editor
{

/** One tuning that explains the strikes: notes, interval, uncertainty, probability. */
class AnswerButton : public juce::Button
{
public:
    AnswerButton();

    void show (const fitting::DrumAnswer&, modal::ConcertPitch);

    void paintButton (juce::Graphics&, bool isOver, bool isDown) override;
    void lookAndFeelChanged() override { repaint(); }

private:
    float probability = 0.0f;
    juce::String share, notes, details;
};

/** The tunings that explain the strikes, most probable first; one of them is chosen. */
class AnswersView : public juce::Component
{
public:
    AnswersView();

    std::function<void()> onChosen; ///< called when a person has chosen one

    /** Chooses the first again if they are others. */
    void show (const std::vector<fitting::DrumAnswer>&, modal::ConcertPitch);

    /** Null while there are none. */
    const fitting::DrumAnswer* chosen() const noexcept;
    AnswerButton& button (int index) { return *buttons[static_cast<std::size_t> (index)]; }

    void resized() override;

private:
    void choose (std::size_t);

    std::vector<fitting::DrumAnswer> answers;
    std::vector<std::unique_ptr<AnswerButton>> buttons;
    RovingFocus focus; ///< after the buttons, so that it ends first
    std::size_t which = 0;
};

} // namespace editor
