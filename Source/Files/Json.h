#pragma once

#include <nlohmann/json.hpp>

#include <string>
#include <string_view>

namespace files
{

/** A JSON value (RFC 8259) whose objects keep the order of their members. */
using Json = nlohmann::ordered_json;

/** How deep objects and lists may lie within each other; a drum file needs 4. */
inline constexpr int deepestJson = 32;

/** Reads a whole document from anyone: bounded in depth, and each key once in an object. Throws modal::InputError with `source`
   (a file's name), the line and the column of the fault. */
Json parseJson (std::string_view document, const std::string& source);

/** The document as text, two spaces a level; numbers read back exactly, those that are not finite become null. */
std::string written (Json);

/** What a value is, in words and short: `number 14`, `text "G#3"`, `a list`. */
std::string described (const Json&);

} // namespace files
