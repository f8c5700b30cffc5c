#pragma once

#include "DrumFile.h"

#include <string>
#include <string_view>
#include <vector>

namespace files
{

/** A file of Presets/ that was built into the program. */
struct Preset
{
    std::string name;      ///< of its file without ".json": what a person types
    std::string_view text; ///< the document
};

/** All drums that come with the program, by name. */
const std::vector<Preset>& drumPresets();

/** The preset of that name, or nullptr. */
const Preset* findDrumPreset (std::string_view name);

/** A drum by the name of a preset, or else from a file of that path. The pitch is as in readDrum(). Throws
   modal::InputError. */
DrumFile openDrum (const std::string& presetOrPath, std::optional<modal::ConcertPitch> = std::nullopt);

} // namespace files
