#include "UndoRecorder.h"

namespace plugin
{
namespace
{
Values valuesOf (const std::array<DrumParameter*, parameterCount>& parameters)
{
    Values values{};
    for (std::size_t i = 0; i < parameterCount; ++i)
        values[i] = static_cast<float> (parameters[i]->plainValue());
    return values;
}
} // namespace

bool ValuesChange::perform()
{
    apply (after);
    return true;
}

bool ValuesChange::undo()
{
    apply (before);
    return true;
}

UndoRecorder::UndoRecorder (const std::array<DrumParameter*, parameterCount>& list, juce::UndoManager& undoManager,
                            ValuesChange::Apply applyValues)
    : parameters (list), undo (undoManager), apply (std::move (applyValues))
{
    for (auto* parameter : parameters)
        parameter->addListener (this);
}

UndoRecorder::~UndoRecorder()
{
    for (auto* parameter : parameters)
        parameter->removeListener (this);
}

void UndoRecorder::parameterGestureChanged (int index, bool isStarting)
{
    const auto i = static_cast<std::size_t> (index);

    if (isPaused || i >= parameterCount || ! juce::MessageManager::existsAndIsCurrentThread())
        return;

    const auto now = static_cast<float> (parameters[i]->plainValue());

    if (isStarting)
    {
        atStart[i] = now;
        return;
    }

    if (now == atStart[i])
        return;

    auto after = valuesOf (parameters), before = after;
    before[i] = atStart[i];
    undo.beginNewTransaction (parameters[i]->getName (100));
    undo.perform (new ValuesChange (before, after, apply));
}

} // namespace plugin
