#include "PartPresets.h"

#include "DrumFile.h"
#include "ObjectReader.h"

#include <HeadData.h>
#include <WireData.h>

#include <algorithm>

namespace files
{

namespace
{
constexpr const char* headFormat = "snarewright-head";
constexpr const char* wireFormat = "snarewright-wires";

/** Reads every document of a list that was built in, in order of name; `read (reader, name)` takes what is special about it. */
template <class Part, class Get, class Read>
std::vector<PartPreset<Part>> readAll (const char* const* resources, const char* const* fileNames, int count, Get get,
                                       const char* format, Read read)
{
    std::vector<PartPreset<Part>> presets;

    for (int i = 0; i < count; ++i)
    {
        int size = 0;
        const auto* bytes = get (resources[i], size);
        const std::string fileName = fileNames[i];
        const auto document = Json::parse (std::string (bytes, static_cast<std::size_t> (size)), fileName);
        ObjectReader reader (document, fileName);

        if (! reader.choice ("format", { format }))
            reader.noteMissing ("format", format);
        if (! reader.count ("version", 1, 1))
            reader.noteMissing ("version", "1");

        PartPreset<Part> preset = read (reader);
        reader.finish();
        preset.text = { bytes, static_cast<std::size_t> (size) };
        preset.name = fileName.substr (0, fileName.rfind ('.'));
        presets.push_back (std::move (preset));
    }

    std::sort (presets.begin(), presets.end(), [] (const auto& a, const auto& b) { return a.name < b.name; });
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
        readAll<modal::HeadConstruction> (HeadData::namedResourceList, HeadData::originalFilenames,
                                          HeadData::namedResourceListSize, HeadData::getNamedResource, headFormat,
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
        WireData::namedResourceList, WireData::originalFilenames, WireData::namedResourceListSize, WireData::getNamedResource,
        wireFormat,
        [] (ObjectReader& reader)
        {
            const auto name = reader.text ("name").value_or ("");
            return PartPreset<modal::WireSpec>{ {}, name, readWires (required (reader, "wires"), reader.pathOf ("wires")), {} };
        });

    return presets;
}

} // namespace files
