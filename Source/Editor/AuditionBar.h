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

    /** Called for every stroke that is to sound. */
    std::function<void (const engine::Stroke&)> onStroke;

    /** Called when tunings begin to be only tried, and when what was set is back. */
    std::function<void (bool isTrying)> onTrying;

    /** A stroke at a place of the head, at the speed that is set times `strength`. */
    void strikeAt (double place, double angle, double strength);

    /** The stroke of the button with this number, from 0 at the left; nothing for others. */
    void play (int number);

    double speed() const noexcept { return strokeSpeed; } ///< m/s
    IntervalSweep& sweep() noexcept { return intervals; }
    juce::Button& sweepButton() noexcept { return sweepAll; }
    ValueBox& speedBox() noexcept { return speedOfStroke; }
    ParameterRow& patternSwitch() noexcept { return patternOn; }

    /** Switch and caption for the loudness match, which belongs to the window. */
    juce::Button& matchButton() noexcept { return match; }

    void refresh();
    void resized() override;

private:
    engine::Stroke strokeOf (engine::StrokeKind, double place) const;

    plugin::Processor& processor;
    double strokeSpeed = 3.0;
    std::vector<std::unique_ptr<CommandButton>> strokes;
    ValueBox speedOfStroke;
    ParameterRow pattern, patternOn;
    IntervalSweep intervals;
    CommandButton sweepAll, match;
};

} // namespace editor
