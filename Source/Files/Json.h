#pragma once

#include <cstddef>
#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace files
{

/** A JSON value (RFC 8259) whose objects keep the order of their members.

    Reading and writing is the nlohmann/json library's; this small tree is what is left when a drum file, which may come from anyone, has also been
    found bounded in depth and without a key given twice.
*/
class Json
{
public:
    using Array = std::vector<Json>;
    using Object = std::vector<std::pair<std::string, Json>>;

    /** How deep objects and lists may lie within each other; a drum file needs 4. */
    static constexpr int deepest = 32;

    Json() = default;
    Json (bool b) : content (b) {}
    Json (int i) : content (static_cast<double> (i)) {}
    Json (double d) : content (d) {}
    Json (const char* s) : content (std::string (s)) {}
    Json (std::string s) : content (std::move (s)) {}
    Json (Array a) : content (std::move (a)) {}
    Json (Object o) : content (std::move (o)) {}

    bool isNull() const noexcept { return std::holds_alternative<std::monostate> (content); }
    const bool* boolean() const noexcept { return std::get_if<bool> (&content); }
    const double* number() const noexcept { return std::get_if<double> (&content); }
    const std::string* text() const noexcept { return std::get_if<std::string> (&content); }
    const Array* array() const noexcept { return std::get_if<Array> (&content); }
    const Object* object() const noexcept { return std::get_if<Object> (&content); }

    /** The member of that name, or nullptr; nullptr too if this is no object. */
    const Json* find (std::string_view key) const noexcept;

    /** What this is, in words and short: `number 14`, `text "G#3"`, `a list`. */
    std::string described() const;

    /** Reads a whole document. Throws modal::InputError with `source` (a file's name), the line and the column of the fault. */
    static Json parse (std::string_view document, const std::string& source);

    /** The document as text, two spaces a level; numbers read back exactly, those that are not finite become null. */
    std::string written() const;

private:
    std::variant<std::monostate, bool, double, std::string, Array, Object> content;
};

} // namespace files
