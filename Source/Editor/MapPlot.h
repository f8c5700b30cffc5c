#pragma once

#include "MapPicture.h"

#include <juce_gui_basics/juce_gui_basics.h>

#include <functional>

namespace editor
{

/** The map itself: interval over batter note. Pointing reads it, a click tunes there, a drag tunes along the way; with Alt a drag
   or the left and right arrow stays on the contour of the drum note. */
class MapPlot : public juce::Component, public juce::SettableTooltipClient
{
public:
    /** How the tuning is read and set. */
    struct Tune
    {
        std::function<TuningSpot()> get;
        std::function<void (TuningSpot)> set;
        std::function<void()> begin, end; ///< enclose a change that is one undo step
        std::function<std::optional<TuningSpot> (TuningSpot from, double batter)>
            alongContour;                              ///< same drum note, another batter note
        std::function<juce::String (TuningSpot)> read; ///< what a tuning gives, or why it is impossible
        std::function<void()> strike;
    };

    struct Mark
    {
        TuningSpot where;
        juce::String label;
        bool isKept; ///< a kept tuning; otherwise a preset of this drum
    };

    explicit MapPlot (Tune);

    std::function<void (const juce::String&)> onRead; ///< called with what is pointed at; empty when nothing is

    void setPicture (std::shared_ptr<const MapPicture>);
    void setMarks (std::vector<Mark>);
    const MapPicture* picture() const noexcept { return drawn.get(); }
    std::size_t markCount() const noexcept { return marks.size(); }

    /** Where a tuning lies in this component. */
    juce::Point<float> pointOf (TuningSpot) const;

    void paint (juce::Graphics&) override;
    void mouseMove (const juce::MouseEvent&) override;
    void mouseExit (const juce::MouseEvent&) override;
    void mouseDown (const juce::MouseEvent&) override;
    void mouseDrag (const juce::MouseEvent&) override;
    void mouseUp (const juce::MouseEvent&) override;
    bool keyPressed (const juce::KeyPress&) override;
    void focusGained (FocusChangeType) override { repaint(); }
    void focusLost (FocusChangeType) override { repaint(); }
    void lookAndFeelChanged() override { repaint(); }
    std::unique_ptr<juce::AccessibilityHandler> createAccessibilityHandler() override;

private:
    juce::Rectangle<float> plot() const;
    TuningSpot spotAt (juce::Point<float>) const;
    void tuneTo (const juce::MouseEvent&);
    void step (TuningSpot);
    void drawAxes (juce::Graphics&) const;
    void drawContours (juce::Graphics&) const;
    void drawRegions (juce::Graphics&) const;
    void drawCautions (juce::Graphics&) const;
    void drawMarks (juce::Graphics&) const;

    Tune tune;
    std::shared_ptr<const MapPicture> drawn;
    std::vector<Mark> marks;
    TuningSpot grabbed;
    bool isTuning = false;
};

} // namespace editor
