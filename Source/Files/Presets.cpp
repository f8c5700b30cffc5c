#include "Presets.h"

#include "EmbeddedFiles.h"
#include "NearestWord.h"

#include "Modal/InputError.h"

#include <algorithm>

namespace files
{

const std::vector<Preset>& drumPresets()
{
    static const auto presets = []
    {
        std::vector<Preset> found;

        for (const auto& file : embeddedDrums())
            found.push_back ({ std::string (file.name), file.text });

        return found;
    }();

    return presets;
}

const Preset* findDrumPreset (std::string_view name)
{
    const auto& presets = drumPresets();
    const auto found = std::find_if (presets.begin(), presets.end(), [&] (const Preset& p) { return p.name == name; });
    return found == presets.end() ? nullptr : &*found;
}

DrumFile openDrum (const std::string& presetOrPath, std::optional<modal::ConcertPitch> pitch)
{
    if (const auto* preset = findDrumPreset (presetOrPath))
        return readDrum (std::string (preset->text), presetOrPath, pitch);

    std::error_code error;

    if (std::filesystem::exists (presetOrPath, error))
        return loadDrum (presetOrPath, pitch);

    std::vector<std::string> names;

    for (const auto& preset : drumPresets())
        names.push_back (preset.name);

    throw modal::InputError ("drum", '"' + presetOrPath + '"', "a drum file, or a preset: " + listedFor (presetOrPath, names));
}

} // namespace files
