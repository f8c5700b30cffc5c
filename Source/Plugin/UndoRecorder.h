#pragma once

#include "DrumParameter.h"

#include <functional>

namespace plugin
{

/** Undoable change of all parameters from `before` to `after`. */
class ValuesChange final : public juce::UndoableAction
{
public:
    using Apply = std::function<void (const Values&)>;

    ValuesChange (const Values& from, const Values& to, Apply applyValues)
        : before (from), after (to), apply (std::move (applyValues))
    {
    }

    bool perform() override;
    bool undo() override;
    int getSizeInUnits() override { return static_cast<int> (parameterCount); }

private:
    Values before, after;
    Apply apply;
};

/** Makes every gesture on a parameter an undo step. Automation has no gestures and makes no steps. */
class UndoRecorder final : private juce::AudioProcessorParameter::Listener
{
public:
    UndoRecorder (const std::array<DrumParameter*, parameterCount>&, juce::UndoManager&, ValuesChange::Apply);
    ~UndoRecorder() override;

    /** While paused, gestures make no undo steps: they come from an undo or a preset. */
    void setPaused (bool shouldPause) noexcept { isPaused = shouldPause; }

private:
    void parameterValueChanged (int, float) override {}
    void parameterGestureChanged (int index, bool isStarting) override;

    const std::array<DrumParameter*, parameterCount>& parameters;
    juce::UndoManager& undo;
    ValuesChange::Apply apply;
    std::array<float, parameterCount> atStart{};
    bool isPaused = false;
};

} // namespace plugin
