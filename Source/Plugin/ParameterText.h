#pragma once

#include "ParameterTable.h"

namespace plugin
{

/** A parameter's value as a person would write it: "G#3", "P4", "14 in", "off". */
std::string textOf (const ParameterSpec&, double value);

/** Reads what a person types: "F#3", "185 Hz", "P5", "perfect fifth", "+7 st", "6.5 in", "165 mm"; a bare number is in the
    parameter's own unit.

    @param concertPitch   Hz, for notes given as a frequency
    @throws modal::InputError naming the parameter, the text and what is allowed; nothing is clipped
*/
double valueFrom (const std::string& text, const ParameterSpec&, double concertPitch = 440.0);

} // namespace plugin
