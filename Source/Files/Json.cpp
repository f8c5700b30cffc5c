#include "Json.h"

#include "Modal/InputError.h"

#include <algorithm>
#include <cmath>
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

/** Builds a document from the events of the library's parser and refuses what that accepts: duplicate keys and unlimited nesting.
 */
class Builder
{
public:
    Builder (std::string_view documentText, const std::string& sourceName) : document (documentText), source (sourceName) {}

    Json result;

    bool null() { return add (nullptr); }
    bool boolean (bool value) { return add (value); }
    bool number_integer (std::int64_t value) { return add (value); }
    bool number_unsigned (std::uint64_t value) { return add (value); }
    bool number_float (double value, const std::string&) { return add (value); }
    bool string (std::string& value) { return add (std::move (value)); }
    bool binary (Json::binary_t&) { return false; } // JSON text has none

    bool start_object (std::size_t) { return open (Json::object()); }
    bool start_array (std::size_t) { return open (Json::array()); }
    bool end_object() { return close(); }
    bool end_array() { return close(); }

    bool key (std::string& name)
    {
        if (levels.back()->contains (name))
            throw modal::InputError (source, "the key \"" + name + "\" given twice", "each key once in an object");

        lastKey = std::move (name);
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
    /** Where the value went. */
    Json& put (Json value)
    {
        if (levels.empty())
            return result = std::move (value);

        auto& parent = *levels.back();
        return parent.is_object() ? parent[lastKey] = std::move (value) : parent.emplace_back (std::move (value));
    }

    bool add (Json value)
    {
        put (std::move (value));
        return true;
    }

    bool open (Json container)
    {
        if (levels.size() > static_cast<std::size_t> (deepestJson))
            throw modal::InputError (source, "more than " + std::to_string (deepestJson) + " levels of brackets",
                                     "at most " + std::to_string (deepestJson));

        levels.push_back (&put (std::move (container)));
        return true;
    }

    bool close()
    {
        levels.pop_back();
        return true;
    }

    std::string_view document;
    const std::string& source;
    std::vector<Json*> levels; ///< containers that are open, the document first; a parent does not change while a child is open
    std::string lastKey;
};

/** Whole numbers lose their ".0", as a person would write them. */
void writeWholeNumbersBare (Json& value)
{
    constexpr double exactIntegers = 9007199254740992.0; // 2^53

    if (value.is_structured())
        for (auto& item : value)
            writeWholeNumbersBare (item);
    else if (value.is_number_float())
        if (const auto number = value.get<double>(); std::abs (number) < exactIntegers && std::trunc (number) == number)
            value = static_cast<std::int64_t> (number);
}
} // namespace

Json parseJson (std::string_view document, const std::string& source)
{
    Builder builder (document, source);
    Json::sax_parse (document, &builder);
    return std::move (builder.result);
}

std::string written (Json document)
{
    writeWholeNumbersBare (document);
    return document.dump (2, ' ', false, Json::error_handler_t::replace) + '\n';
}

std::string described (const Json& value)
{
    constexpr std::size_t longestQuote = 40;

    switch (value.type())
    {
    case Json::value_t::boolean:
        return value.get<bool>() ? "true" : "false";
    case Json::value_t::number_integer:
    case Json::value_t::number_unsigned:
    case Json::value_t::number_float:
        return "number " + modal::asText (value.get<double>());
    case Json::value_t::string:
    {
        const auto& text = value.get_ref<const std::string&>();
        return "text \"" + (text.size() <= longestQuote ? text : text.substr (0, longestQuote) + "...") + '"';
    }
    case Json::value_t::array:
        return "a list";
    case Json::value_t::object:
        return "an object";
    default:
        return "null";
    }
}

} // namespace files
