#include "ObjectReader.h"

#include "NearestWord.h"

#include "Modal/InputError.h"

#include <algorithm>
#include <cmath>

namespace files
{
namespace
{
const Json& requireObject (const Json& value, const std::string& path)
{
    if (value.is_object())
        return value;

    throw modal::InputError (path, described (value), "an object in curly brackets");
}

std::string keyOf (const char* name, const Unit& unit)
{
    return *unit.key == '\0' ? std::string (name) : std::string (name) + "_" + unit.key;
}
} // namespace

ObjectReader::ObjectReader (const Json& value, std::string pathToIt)
    : object (requireObject (value, pathToIt)), path (std::move (pathToIt))
{
}

std::string ObjectReader::pathOf (const std::string& key) const
{
    // "pit.json" holds "pit.json: batter", which holds "pit.json: batter.plies".
    return path + (path.find (": ") == std::string::npos ? ": " : ".") + key;
}

const Json* ObjectReader::member (const std::string& key)
{
    knownKeys.push_back (key);
    const auto found = object.find (key);
    return found == object.end() ? nullptr : &*found;
}

std::optional<double> ObjectReader::number (const char* name, const Quantity& quantity, const Limits& limits)
{
    std::optional<double> result;
    std::string firstKey;

    for (const auto& unit : quantity.units)
    {
        const auto key = keyOf (name, unit);
        const auto* value = member (key);

        if (value == nullptr)
            continue;

        if (result)
            throw modal::InputError (pathOf (key), described (*value), "one unit only, and " + firstKey + " is given too");

        if (! value->is_number())
            throw modal::InputError (pathOf (key), described (*value), "a number, " + asText (limits, unit));

        result = inLimits (value->get<double>(), unit, limits, pathOf (key));
        firstKey = key;
    }

    return result;
}

std::optional<std::vector<double>> ObjectReader::numbers (const char* name, const Unit& unit, const Limits& limits)
{
    const auto key = keyOf (name, unit);
    const auto* value = member (key);

    if (value == nullptr)
        return std::nullopt;

    if (! value->is_array())
        throw modal::InputError (pathOf (key), described (*value), "a list of numbers in square brackets");

    std::vector<double> list;

    for (const auto& item : *value)
    {
        const auto itemPath = pathOf (key) + "[" + std::to_string (list.size()) + "]";

        if (! item.is_number())
            throw modal::InputError (itemPath, described (item), "a number, " + asText (limits, unit));

        list.push_back (inLimits (item.get<double>(), unit, limits, itemPath));
    }

    return list;
}

std::optional<int> ObjectReader::count (const char* name, int low, int high)
{
    const auto* value = member (name);

    if (value == nullptr)
        return std::nullopt;

    const auto given = value->is_number() ? value->get<double>() : std::nan ("");

    if (! (given == std::floor (given) && given >= low && given <= high))
        throw modal::InputError (pathOf (name), described (*value),
                                 low == high ? "only " + std::to_string (low)
                                             : "a whole number, " + std::to_string (low) + " to " + std::to_string (high));

    return static_cast<int> (given);
}

std::optional<std::string> ObjectReader::text (const char* name)
{
    const auto* value = member (name);

    if (value == nullptr)
        return std::nullopt;

    if (! value->is_string())
        throw modal::InputError (pathOf (name), described (*value), "a text in double quotes");

    return value->get<std::string>();
}

std::optional<std::size_t> ObjectReader::choice (const char* name, const std::vector<std::string>& words)
{
    const auto given = text (name);

    if (! given)
        return std::nullopt;

    const auto found = std::find (words.begin(), words.end(), *given);

    if (found == words.end())
        throw modal::InputError (pathOf (name), '"' + *given + '"', listedFor (*given, words));

    return static_cast<std::size_t> (found - words.begin());
}

void ObjectReader::noteMissing (const std::string& key, const std::string& allowed)
{
    if (! missingKey.empty())
        return;

    missingKey = key;
    allowedForMissing = allowed;
}

void ObjectReader::finish() const
{
    for (const auto& [key, value] : object.items())
    {
        if (std::find (knownKeys.begin(), knownKeys.end(), key) != knownKeys.end())
            continue;

        const auto nearest = nearestWord (key, knownKeys);
        throw modal::InputError::fault (pathOf (key), "is an unknown key (" + described (value) + ")",
                                        nearest.empty() ? listed (knownKeys) : "a known key, perhaps " + nearest);
    }

    if (! missingKey.empty())
        throw modal::InputError::fault (pathOf (missingKey), "is missing", allowedForMissing);
}

} // namespace files
