#pragma once

#include "Json.h"
#include "Quantity.h"

#include "Modal/Number.h"

#include <optional>
#include <string>
#include <vector>

namespace files
{

/** Reads the members of one JSON object by key and, at the end, rejects those that were not read.

    Every error is a modal::InputError whose field is the path from the top ("pit.json: batter.thickness_mil"). A number's key is
   its name, an underscore and a unit (`diameter_in`); giving it in two units is an error.
*/
class ObjectReader
{
public:
    /** @throws modal::InputError if `value` is no object. */
    ObjectReader (const Json& value, std::string path);

    std::optional<double> number (const char* name, const Quantity&, const Limits&);
    /** A list of numbers in one unit. */
    std::optional<std::vector<double>> numbers (const char* name, const Unit&, const Limits&);
    std::optional<int> count (const char* name, int low, int high);
    template <class Owner>
    std::optional<int> count (const modal::Count<Owner>& c)
    {
        return count (c.name, static_cast<int> (c.low), static_cast<int> (c.high));
    }
    std::optional<std::string> text (const char* name);
    /** One of the words given; its index. */
    std::optional<std::size_t> choice (const char* name, const std::vector<std::string>& words);
    /** A member of any type, or nullptr. */
    const Json* member (const std::string& key);

    /** The path of a member, for errors and nested readers. */
    std::string pathOf (const std::string& key) const;

    /** Notes a missing member for finish() to report. Not reported at once, since a misspelt key is the better explanation. */
    void noteMissing (const std::string& key, const std::string& allowed);

    /** @throws modal::InputError for the first member that was not read, with the nearest known key, or else for the first that
       is missing. */
    void finish() const;

private:
    const Json& object;
    std::string path;
    std::vector<std::string> knownKeys;
    std::string missingKey, allowedForMissing;
};

} // namespace files
