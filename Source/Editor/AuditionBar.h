#pragma once

#include "DragButton.h"
#include "IntervalSweep.h"
#include "ValueBox.h"

#include "Engine/Stroke.h"

namespace editor
{

/** Strokes and the sweep through all intervals. */
class AuditionBar : public juce::Component
{
public:
    explicit AuditionBar (plugin::Processor&);
    ~AuditionBar() override;

    /** Called when the button of a stroke is dragged. */
    std::function<void (juce::Component& button, const juce::String& name, const engine::Stroke&, const juce::ModifierKeys&)>
        onDragOut;

    /** Called for every stroke to play. */
    std::function<void (const engine::Stroke&)> onStroke;

    /** Called when trial tunings begin, and when the original tuning is back. */
    std::function<void (bool isTrying)> onTrying;

    /** A stroke at a place on the head, at the set speed times `strength`. */
    void strikeAt (double place, double angle, double strength);

    /** Plays the stroke of a button, counted from 0 at the left; ignores other numbers. */
    void play (int number);

    double speed() const noexcept { return strokeSpeed; } ///< m/s
    ValueBox& speedBox() noexcept { return speedOfStroke; }
    IntervalSweep& sweep() noexcept { return intervals; }
    juce::Button& sweepButton() noexcept { return sweepAll; }
    /** Calls back for refused input. */
    void setOnRefused (std::function<void (const juce::String&)> onRefused) { speedOfStroke.onRefused = std::move (onRefused); }

    void refresh();
    void resized() override;

private:
    engine::Stroke strokeOf (engine::StrokeKind, double place) const;

    plugin::Processor& processor;
    double strokeSpeed = 3.0;
    std::vector<std::unique_ptr<DragButton>> strokes;
    ValueBox speedOfStroke;
    IntervalSweep intervals;
    CommandButton sweepAll;
};

} // namespace editor
