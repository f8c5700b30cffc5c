#include "Presets.h"

#include "NearestWord.h"

#include "Modal/InputError.h"

#include <PresetData.h>

#include <algorithm>

namespace files
{

const std::vector<Preset>& drumPresets()
{
    static const auto presets = []
    {
        std::vector<Preset> found;

        for (int i = 0; i < PresetData::namedResourceListSize; ++i)
        {
            int size = 0;
            const auto* bytes = PresetData::getNamedResource (PresetData::namedResourceList[i], size);
            const std::string fileName = PresetData::originalFilenames[i];
            found.push_back ({ fileName.substr (0, fileName.rfind ('.')), { bytes, static_cast<std::size_t> (size) } });
        }

        std::sort (found.begin(), found.end(), [] (const Preset& a, const Preset& b) { return a.name < b.name; });
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

    throw modal::InputError ("drum", '"' + presetOrPath + '"', "a file that exists, or a preset: " + listed (names));
}

} // namespace files
