#include "PartPresets.h"

#include "DrumFile.h"
#include "EmbeddedFiles.h"
#include "ObjectReader.h"

namespace files
{

namespace
{
constexpr const char* headFormat = "snarewright-head";
constexpr const char* stickFormat = "snarewright-stick";
constexpr const char* wireFormat = "snarewright-wires";

/** Reads the embedded files of one kind; `read (reader)` reads what only this kind has. */
template <class Part, class Read>
std::vector<PartPreset<Part>> readAll (std::span<const EmbeddedFile> files, const char* format, Read read)
{
    std::vector<PartPreset<Part>> presets;

    for (const auto& file : files)
    {
        const std::string name (file.name);
        const auto document = parseJson (file.text, name);
        ObjectReader reader (document, name);

        if (! reader.choice ("format", { format }))
            reader.noteMissing ("format", format);
        if (! reader.count ("version", 1, 1))
            reader.noteMissing ("version", "1");

        PartPreset<Part> preset = read (reader);
        reader.finish();
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

} // namespace files
