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

/** The part itself under `key`; `read (value, path)` reads it. */
template <class Read>
auto partAt (const char* key, Read read)
{
    return [key, read] (ObjectReader& reader)
    {
        const auto name = reader.text ("name").value_or ("");
        reader.text ("source"); // of the figures, for people
        auto part = read (required (reader, key), reader.pathOf (key));
        return PartPreset<decltype (part)>{ {}, name, part, {} };
    };
}

PartPreset<place::Place> readPlacePart (ObjectReader& reader)
{
    auto preset = partAt ("place", readPlace) (reader);
    preset.part.name = preset.description;
    return preset;
}
} // namespace

const std::vector<PartPreset<modal::HeadConstruction>>& headPresets()
{
    // The name of a head is part of the head.
    static const auto presets = readAll<modal::HeadConstruction> (embeddedHeads(), headFormat,
                                                                  [] (ObjectReader& reader)
                                                                  {
                                                                      auto preset = partAt ("head", readHead) (reader);
                                                                      preset.description = preset.part.name;
                                                                      return preset;
                                                                  });
    return presets;
}

const std::vector<PartPreset<modal::WireSpec>>& wirePresets()
{
    static const auto presets = readAll<modal::WireSpec> (
        embeddedWires(), wireFormat,
        partAt ("wires", [] (const Json& value, const std::string& path) { return readWires (value, path); }));
    return presets;
}

const std::vector<PartPreset<modal::StickSpec>>& stickPresets()
{
    static const auto presets = readAll<modal::StickSpec> (embeddedSticks(), stickFormat, partAt ("stick", readStick));
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
        return readPart (loadText (presetOrPath), std::filesystem::path (presetOrPath).filename().string(), placeFormat,
                         readPlacePart)
            .part;

    throw modal::InputError (field, '"' + presetOrPath + '"',
                             "a place file, or a preset: " + listedFor (presetOrPath, namesOf (placePresets())));
}

} // namespace files
