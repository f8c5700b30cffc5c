// The place of a drum file.

#include "DrumFile.h"
#include "DrumWords.h"
#include "Fields.h"
#include "PartPresets.h"

#include <algorithm>

namespace files
{

using place::Place;

Place readPlace (const Json& value, const std::string& path)
{
    if (value.is_string())
        return partNamed (placePresets(), value.get<std::string>(), "a place", path);

    ObjectReader reader (value, path);
    Place read;
    read.name = reader.text ("name").value_or ("");
    if (const auto kind = reader.choice ("kind", placeKindWords))
        read.kind = static_cast<Place::Kind> (*kind);
    readNumbers (reader, read);
    readNumbers (reader, read.weather);

    if (const auto times = reader.numbers ("reverberation", Quantity::time.si(), limitsOf (place::timeRange)))
    {
        if (times->size() != read.times.size())
            throw modal::InputError (reader.pathOf ("reverberation_s"), std::to_string (times->size()) + " numbers",
                                     "one for each octave from 125 Hz to 8 kHz: " + std::to_string (read.times.size()));
        std::copy (times->begin(), times->end(), read.times.begin());
    }
    else if (read.kind == Place::Kind::room)
        reader.noteMissing ("reverberation_s", "a list of times in s for the octaves from 125 Hz to 8 kHz");

    reader.finish();

    try
    {
        place::check (read);
    }
    catch (const modal::InputError& e)
    {
        throw e.of (reader.pathOf (e.field()));
    }

    return read;
}

Json placeAsJson (const Place& place)
{
    Json object = Json::object();
    if (! place.name.empty())
        object["name"] = place.name;
    object["kind"] = placeKindWords[static_cast<std::size_t> (place.kind)];
    writeNumbers (object, place);
    writeNumbers (object, place.weather);
    if (place.kind == Place::Kind::room)
        object["reverberation_s"] = place.times;
    return object;
}

} // namespace files
