#include "PartPresets.h"

#include "DrumFile.h"
#include "EmbeddedFiles.h"
#include "NearestWord.h"
#include "ObjectReader.h"
#include "TextFile.h"

#include "Modal/InputError.h"

#include <filesystem>

namespace files
{

namespace
{
constexpr const char* headFormat = "snarewright-head";
constexpr const char* placeFormat = "snarewright-place";
constexpr const char* stickFormat = "snarewright-stick";
constexpr const char* wireFormat = "snarewright-wires";

/** Reads the document of a part; `read (reader)` reads what only this kind of part has. */
template <class Read>
auto readPart (std::string_view text, const std::string& source, const char* format, Read read)
{
    const auto document = parseJson (text, source);
    ObjectReader reader (document, source);

    if (! reader.choice ("format", { format }))
        reader.noteMissing ("format", format);
    if (! reader.count ("version", 1, 1))
        reader.noteMissing ("version", "1");

    auto part = read (reader);
    reader.finish();
    return part;
}

/** Reads the embedded files of one kind. */
template <class Part, class Read>
std::vector<PartPreset<Part>> readAll (std::span<const EmbeddedFile> files, const char* format, Read read)
{
    std::vector<PartPreset<Part>> presets;

    for (const auto& file : files)
    {
        const std::string name (file.name);
        PartPreset<Part> preset = readPart (file.text, name, format, read);
        preset.text = file.text;
        preset.name = name;
        presets.push_back (std::move (preset));
    }

    return presets;
}

const Json& required (ObjectReader& reader, const char* key)
{
    static const Json nothing;
    const auto* value = reader.member (key);

    if (value == nullptr)
        reader.noteMissing (key, "a value");

    return value != nullptr ? *value : nothing;
}

PartPreset<place::Place> readPlacePart (ObjectReader& reader)
{
    const auto name = reader.text ("name").value_or ("");
    reader.text ("source"); // for people who read the file
    auto part = readPlace (required (reader, "place"), reader.pathOf ("place"));
    part.name = name;
    return { {}, name, part, {} };
}
} // namespace

const std::vector<PartPreset<modal::HeadConstruction>>& headPresets()
{
    static const auto presets =
        readAll<modal::HeadConstruction> (embeddedHeads(), headFormat,
                                          [] (ObjectReader& reader)
                                          {
                                              const auto head = readHead (required (reader, "head"), reader.pathOf ("head"));
                                              return PartPreset<modal::HeadConstruction>{ {}, head.name, head, {} };
                                          });

    return presets;
}

const std::vector<PartPreset<modal::WireSpec>>& wirePresets()
{
    static const auto presets = readAll<modal::WireSpec> (
        embeddedWires(), wireFormat,
        [] (ObjectReader& reader)
        {
            const auto name = reader.text ("name").value_or ("");
            return PartPreset<modal::WireSpec>{ {}, name, readWires (required (reader, "wires"), reader.pathOf ("wires")), {} };
        });

    return presets;
}

const std::vector<PartPreset<modal::StickSpec>>& stickPresets()
{
    static const auto presets = readAll<modal::StickSpec> (
        embeddedSticks(), stickFormat,
        [] (ObjectReader& reader)
        {
            const auto name = reader.text ("name").value_or ("");
            return PartPreset<modal::StickSpec>{ {}, name, readStick (required (reader, "stick"), reader.pathOf ("stick")), {} };
        });

    return presets;
}

const std::vector<PartPreset<place::Place>>& placePresets()
{
    static const auto presets = readAll<place::Place> (embeddedPlaces(), placeFormat, readPlacePart);
    return presets;
}

place::Place openPlace (const std::string& presetOrPath, const std::string& field)
{
    if (const auto* preset = findPart (placePresets(), presetOrPath))
        return preset->part;

    std::error_code error;

    if (std::filesystem::exists (presetOrPath, error))
        return readPart (loadText (presetOrPath), std::filesystem::path (presetOrPath).filename().string(), placeFormat, readPlacePart).part;

    throw modal::InputError (field, '"' + presetOrPath + '"', "a place file, or a preset: " + listed (namesOf (placePresets())));
}

} // namespace files
