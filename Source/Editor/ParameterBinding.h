#pragma once

#include "LadderView.h"
#include "ValueBinding.h"

#include "Plugin/Processor.h"

namespace editor
{

/** A parameter as a number that a control can show and set: gestures reach the host and undo. */
ValueBinding bindingOf (plugin::Processor&, plugin::Parameter);

/** A parameter's value as the window shows it, with its unit: of inches no more decimals than anyone measures on a drum. */
juce::String shownValue (const plugin::DrumParameter&, double plain);

/** What a parameter says about itself. */
ControlText textOf (const plugin::ParameterSpec&);

/** The notes of both heads and the distance between them, on top of the parameters batter note, interval and fine cents. */
LadderView::Bindings ladderBindings (plugin::Processor&);

} // namespace editor
