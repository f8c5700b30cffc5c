#pragma once

#include "LadderView.h"
#include "ValueBinding.h"

#include "Plugin/Processor.h"

namespace editor
{

/** Binds a control to a parameter, with gestures for host and undo. */
ValueBinding bindingOf (plugin::Processor&, plugin::Parameter);

/** A parameter's value as the window shows it, with its unit; inches have two decimals at most. */
juce::String shownValue (const plugin::DrumParameter&, double plain);

/** Name, unit and tooltip of a parameter. */
ControlText textOf (const plugin::ParameterSpec&);

/** Notes of both heads and the interval, mapped to the parameters batter note, interval and fine tuning. */
LadderView::Bindings ladderBindings (plugin::Processor&);

} // namespace editor
