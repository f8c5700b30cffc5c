#pragma once

#include "CommandButton.h"
#include "LevelBar.h"
#include "LugSpot.h"
#include "RovingFocus.h"
#include "TextLine.h"

#include "Plugin/Processor.h"

namespace editor
{

/** Lug check of a real head through the audio input: the result of each tap, the measured head, and a button that applies it to
    the drum. */
class ListenView : public juce::Component, private juce::ChangeListener, private juce::Timer
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

    LugSpot& lug (int number) { return *lugs[static_cast<std::size_t> (number - 1)]; }
    juce::String task() const { return taskLine.text(); }     ///< what to do next
    juce::String advice() const { return adviceLine.text(); } ///< the result of the last tap, or how to begin
    juce::String result() const { return note.getTitle() + ", " + tension.getTitle(); }
    juce::Button& startButton() noexcept { return start; }
    juce::Button& deleteTapButton() noexcept { return deleteTap; }
    juce::Button& analyseButton() noexcept { return analyse; }
    juce::Button& applyButton() noexcept { return apply; }

    void paint (juce::Graphics&) override;
    void resized() override;
    void lookAndFeelChanged() override { refresh(); }

private:
    using Report = plugin::ListeningReport;

    void changeListenerCallback (juce::ChangeBroadcaster*) override;
    void timerCallback() override;
    void choose (modal::HeadSide);
    void toggle();
    void chooseLug (int lug);
    bool endCheckOfOtherDrum (const Report&);
    void showLugs (const Report&);
    void showWords (const Report&);
    using Tell = std::function<void (const juce::String& task, const juce::String& text, bool isWarning)>;
    void showHead (const fitting::HeadFit&, const Tell&) const;
    void showResult (const Report&);
    void placeLugs();

    /** Positions of the head and of the lugs around it. */
    struct Ring
    {
        juce::Rectangle<float> head;
        std::vector<juce::Rectangle<int>> spots;

        bool isClear() const; ///< no two neighbours overlap
    };
    Ring ringOf (juce::Point<float> spot, float slant) const;
    int lugCount (const Report&) const;
    modal::ConcertPitch concertPitch() const;
    juce::Colour colourOfHead() const;

    plugin::Processor& processor;
    modal::HeadSide side = modal::HeadSide::batter;
    CommandButton batter, resonant, start, deleteTap, analyse, apply;
    TextLine taskLine, adviceLine, centre, centreDetail, note, tension;
    LevelBar level;
    std::vector<std::unique_ptr<LugSpot>> lugs;
    RovingFocus lugFocus; ///< after the lugs, so that it ends first
    int shownLugs = 0;
    int chosenLug = -1; ///< from 0, where listening continues; -1: none chosen
    juce::Rectangle<int> picture;
    juce::Rectangle<float> circle;
    juce::String announced;
};

} // namespace editor
