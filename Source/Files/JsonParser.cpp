#include "Json.h"

#include "Modal/InputError.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cstdint>

namespace files
{
namespace
{
/** What is wrong, out of "[json.exception.parse_error.101] parse error at line 3, column 8: WHAT IS WRONG; last read: '...'". */
std::string reasonOf (std::string message)
{
    const auto dropUpTo = [&] (const char* mark, std::size_t length)
    {
        if (const auto found = message.find (mark); found != std::string::npos)
            message.erase (0, found + length);
    };

    dropUpTo ("] ", 2);

    if (message.starts_with ("parse error at"))
        dropUpTo (": ", 2);

    return message.substr (0, message.find ("; last read"));
}

/** Builds a Json from the events of the library's reader, and refuses what that lets pass: a key given twice, and nesting without
 * end. */
class Builder
{
public:
    Builder (std::string_view documentText, const std::string& sourceName) : document (documentText), source (sourceName) {}

    Json result;

    bool null() { return add ({}); }
    bool boolean (bool value) { return add (value); }
    bool number_integer (std::int64_t value) { return add (static_cast<double> (value)); }
    bool number_unsigned (std::uint64_t value) { return add (static_cast<double> (value)); }
    bool number_float (double value, const std::string&) { return add (value); }
    bool string (std::string& value) { return add (std::move (value)); }
    bool binary (std::vector<std::uint8_t>&) { return false; } // JSON text has none

    bool start_object (std::size_t) { return open (Json::Object{}); }
    bool start_array (std::size_t) { return open (Json::Array{}); }
    bool end_object() { return close(); }
    bool end_array() { return close(); }

    bool key (std::string& name)
    {
        for (const auto& frame = frames.back(); const auto& member : std::get<Json::Object> (frame.content))
            if (member.first == name)
                throw modal::InputError (source, "the key \"" + name + "\" given twice", "each key once in an object");

        frames.back().key = std::move (name);
        return true;
    }

    bool parse_error (std::size_t position, const std::string&, const nlohmann::detail::exception& error)
    {
        const auto before = document.substr (0, position > 0 ? position - 1 : 0);
        const auto line = 1 + std::count (before.begin(), before.end(), '\n');
        const auto lastBreak = before.rfind ('\n');
        const auto column = before.size() - (lastBreak == std::string_view::npos ? 0 : lastBreak + 1) + 1;
        const bool isCutShort = position > document.size();

        throw modal::InputError (source + ", line " + std::to_string (line) + ", column " + std::to_string (column),
                                 isCutShort ? "the end of the file" : "no JSON here (" + reasonOf (error.what()) + ")",
                                 isCutShort ? "a whole document (the file is cut short)" : "JSON as in RFC 8259, in UTF-8");
    }

private:
    struct Frame
    {
        std::variant<Json::Object, Json::Array> content;
        std::string key{};
    };

    bool open (std::variant<Json::Object, Json::Array> content)
    {
        if (frames.size() > static_cast<std::size_t> (Json::deepest))
            throw modal::InputError (source, "more than " + std::to_string (Json::deepest) + " levels of brackets",
                                     "at most " + std::to_string (Json::deepest));

        frames.push_back ({ std::move (content) });
        return true;
    }

    bool close()
    {
        auto content = std::move (frames.back().content);
        frames.pop_back();
        return add (std::visit ([] (auto& whole) { return Json (std::move (whole)); }, content));
    }

    bool add (Json value)
    {
        if (frames.empty())
            result = std::move (value);
        else if (auto* members = std::get_if<Json::Object> (&frames.back().content))
            members->emplace_back (std::move (frames.back().key), std::move (value));
        else
            std::get<Json::Array> (frames.back().content).push_back (std::move (value));

        return true;
    }

    std::string_view document;
    const std::string& source;
    std::vector<Frame> frames;
};
} // namespace

Json Json::parse (std::string_view document, const std::string& source)
{
    Builder builder (document, source);
    nlohmann::json::sax_parse (document, &builder);
    return std::move (builder.result);
}

} // namespace files
