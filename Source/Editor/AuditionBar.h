#pragma once

#include "CommandButton.h"
#include "IntervalSweep.h"
#include "ParameterRow.h"
#include "ValueBox.h"

#include "Engine/Stroke.h"

namespace editor
{

/** Strokes, patterns and the sweep through all intervals. */
class AuditionBar : public juce::Component
{
public:
    explicit AuditionBar (plugin::Processor&);
    ~AuditionBar() override;

    /** Called for every stroke to play. */
    std::function<void (const engine::Stroke&)> onStroke;

    /** Called when trial tunings begin, and when the original tuning is back. */
    std::function<void (bool isTrying)> onTrying;

    /** A stroke at a place on the head, at the set speed times `strength`. */
    void strikeAt (double place, double angle, double strength);

    /** Plays the stroke of a button, counted from 0 at the left; ignores other numbers. */
    void play (int number);

    double speed() const noexcept { return strokeSpeed; } ///< m/s
    IntervalSweep& sweep() noexcept { return intervals; }
    juce::Button& sweepButton() noexcept { return sweepAll; }
    /** Calls back for refused input of the boxes. */
    void setOnRefused (std::function<void (const juce::String&)> onRefused)
    {
        speedOfStroke.onRefused = onRefused;
        tempo.onRefused = std::move (onRefused);
    }
    ParameterRow& patternSwitch() noexcept { return patternOn; }

    void refresh();
    void resized() override;

private:
    engine::Stroke strokeOf (engine::StrokeKind, double place) const;

    plugin::Processor& processor;
    double strokeSpeed = 3.0;
    std::vector<std::unique_ptr<CommandButton>> strokes;
    ValueBox speedOfStroke, tempo;
    ParameterRow pattern, patternOn;
    IntervalSweep intervals;
    CommandButton sweepAll;
};

} // namespace editor
