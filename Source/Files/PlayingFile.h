#pragma once

#include "DrumFile.h"

namespace files
{

/** How a drum file says what is played and how it is heard. `path` names the value in errors, which are modal::InputError. */
MicrophoneSpecs readMicrophones (const Json&, const std::string& path);
Json microphonesAsJson (const MicrophoneSpecs&);
PatternSpec readPattern (const Json&, const std::string& path);
Json patternAsJson (const PatternSpec&);

} // namespace files
