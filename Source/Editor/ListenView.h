#pragma once

#include "AnswersView.h"
#include "CommandButton.h"
#include "KnownView.h"
#include "LevelBar.h"
#include "LugRing.h"
#include "RodPlanner.h"
#include "SpectrogramView.h"
#include "TextLine.h"

#include "Plugin/Processor.h"

namespace editor
{

/** The page that listens to a real drum, live or from files: a lug check of one head, or strikes of the finished drum. At the left what to
    do, the answer and its figures; at the right the spectrogram. */
class ListenView : public juce::Component, public juce::FileDragAndDropTarget, private juce::ChangeListener, private juce::Timer
{
public:
    explicit ListenView (plugin::Processor&);
    ~ListenView() override;

    /** Called with messages for the hint line. */
    std::function<void (const juce::String&)> onSay;

    /** Called when listening starts or stops. */
    std::function<void (bool isListening)> onRunning;

    /** Call after the drum has changed. */
    void refresh();

    LugSpot& lug (int number) { return ring.lug (number); }
    juce::String task() const { return taskLine.text(); }     ///< what to do next, or the answer
    juce::String advice() const { return adviceLine.text(); } ///< the result of the last tap, or how to begin
    juce::String result() const { return note.getTitle() + ", " + tension.getTitle(); }
    juce::String rodsText() const { return rods.getTitle(); } ///< from the drum that was heard to the tuning that is set
    juce::Button& strikesButton() noexcept { return strikes; }
    juce::Button& startButton() noexcept { return start; }
    juce::Button& deleteTapButton() noexcept { return deleteTap; }
    juce::Button& analyseButton() noexcept { return analyse; }
    juce::Button& applyButton() noexcept { return apply; }
    juce::Button& likeButton() noexcept { return like; }
    AnswersView& answersView() noexcept { return answers; }
    KnownView& knownView() noexcept { return known; }
    SpectrogramView& spectrogramView() noexcept { return spectrogram; }

    bool isInterestedInFileDrag (const juce::StringArray& paths) override;
    void fileDragEnter (const juce::StringArray&, int, int) override { showDrag (true); }
    void fileDragExit (const juce::StringArray&) override { showDrag (false); }
    void filesDropped (const juce::StringArray& paths, int, int) override;

    void paintOverChildren (juce::Graphics&) override;
    void resized() override;
    void lookAndFeelChanged() override { refresh(); }

private:
    using Report = plugin::ListeningReport;
    using Job = Report::Job;

    void changeListenerCallback (juce::ChangeBroadcaster*) override;
    void timerCallback() override;
    void choose (Job, modal::HeadSide);
    void toggle();
    void openFiles();
    void setDrum();
    void chooseLug (int lug);
    void showDrag (bool);
    bool endCheckOfOtherDrum (const Report&);
    void showButtons (const Report&);
    void showLugs (const Report&);
    void showWords (const Report&);
    void showLugCheckWords (const Report&);
    void showStrikesWords (const Report&);
    void tell (const juce::String& task, const juce::String& text, bool isWarning);
    void showHead (const fitting::HeadFit&);
    void showFigures (const Report&);
    void planRods (const Report&);
    void takeLikeness (const Report&);
    modal::ConcertPitch concertPitch() const;
    juce::Colour colourOfHead() const;

    plugin::Processor& processor;
    Job job = Job::lugCheck;
    modal::HeadSide side = modal::HeadSide::batter;
    CommandButton batter, resonant, strikes, start, open, deleteTap, analyse, like, apply;
    TextLine taskLine, adviceLine, note, tension, rods;
    LevelBar level;
    LugRing ring{ plugin::lugParameters };
    AnswersView answers;
    KnownView known;
    SpectrogramView spectrogram;
    int chosenLug = -1; ///< from 0, where listening continues; -1: none chosen
    bool isDraggedOver = false;
    std::shared_ptr<const plugin::PlayedLike> played; ///< taken over last
    juce::String announced;
    std::unique_ptr<juce::FileChooser> chooser;

    std::optional<fitting::HeadAsIs> batterAsHeard, resonantAsHeard;
    RodPlanner planner; ///< last: ends before what it shows
};

} // namespace editor
