#include "Json.h"
#include "NumberText.h"
#include "Utf8.h"

#include "Modal/InputError.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace files
{
namespace
{
/** Reads one document by recursive descent; Json::deepest bounds the recursion. */
class Parser
{
public:
    Parser (std::string_view documentText, const std::string& sourceName) : document (documentText), source (sourceName) {}

    Json parse()
    {
        if (const auto fault = firstFaultInUtf8 (document); fault != std::string_view::npos)
            fail (fault, "a byte that is not UTF-8", "text in UTF-8");

        if (document.starts_with ("\xef\xbb\xbf"))
            at = 3;

        auto value = parseValue (0);
        skipSpace();

        if (at < document.size())
            fail (at, "text after the end of the document", "one object in curly brackets and nothing after it");

        return value;
    }

private:
    [[noreturn]] void fail (std::size_t where, const std::string& found, const std::string& allowed) const
    {
        const auto before = document.substr (0, where);
        const auto line = 1 + std::count (before.begin(), before.end(), '\n');
        const auto lastBreak = before.rfind ('\n');
        const auto column = where - (lastBreak == std::string_view::npos ? 0 : lastBreak + 1) + 1;

        throw modal::InputError (source + ", line " + std::to_string (line) + ", column " + std::to_string (column), found,
                                 allowed);
    }

    [[noreturn]] void failHere (const std::string& allowed) const
    {
        if (at >= document.size())
            fail (at, "the end of the file", allowed + " (the file is cut short)");

        const auto c = document[at];
        const auto isPlain = c > ' ' && c < 127;
        fail (at, isPlain ? std::string ("'") + c + "'" : "this character", allowed);
    }

    void skipSpace() { at = std::min (document.find_first_not_of (" \t\r\n", at), document.size()); }

    bool take (char c)
    {
        if (at >= document.size() || document[at] != c)
            return false;

        ++at;
        return true;
    }

    void require (char c, const char* what)
    {
        skipSpace();

        if (! take (c))
            failHere (what);
    }

    Json parseValue (int depth)
    {
        skipSpace();

        if (depth > Json::deepest)
            fail (at, "more than " + std::to_string (Json::deepest) + " levels of brackets",
                  "at most " + std::to_string (Json::deepest));

        if (take ('{'))
            return parseObject (depth);
        if (take ('['))
            return parseArray (depth);
        if (take ('"'))
            return parseString();
        if (takeWord ("true"))
            return true;
        if (takeWord ("false"))
            return false;
        if (takeWord ("null"))
            return {};

        return parseNumber();
    }

    bool takeWord (std::string_view word)
    {
        if (! document.substr (at).starts_with (word))
            return false;

        at += word.size();
        return true;
    }

    Json parseObject (int depth)
    {
        Json::Object members;
        skipSpace();

        if (take ('}'))
            return members;

        do
        {
            require ('"', "a key in double quotes");
            const auto start = at;
            auto key = parseString();

            for (const auto& member : members)
                if (member.first == key)
                    fail (start, "\"" + key + "\" given twice", "each key once");

            require (':', "a colon after the key");
            members.emplace_back (std::move (key), parseValue (depth + 1));
            skipSpace();
        } while (take (','));

        require ('}', "a comma or a closing curly bracket");
        return members;
    }

    Json parseArray (int depth)
    {
        Json::Array items;
        skipSpace();

        if (take (']'))
            return items;

        do
        {
            items.push_back (parseValue (depth + 1));
            skipSpace();
        } while (take (','));

        require (']', "a comma or a closing square bracket");
        return items;
    }

    std::string parseString()
    {
        std::string text;

        while (! take ('"'))
        {
            if (at >= document.size() || static_cast<unsigned char> (document[at]) < 0x20)
                failHere ("the closing double quote on the same line");

            if (take ('\\'))
                parseEscape (text);
            else
                text += document[at++];
        }

        return text;
    }

    void parseEscape (std::string& text)
    {
        static constexpr std::string_view letters = "\"\\/bfnrt", meanings = "\"\\/\b\f\n\r\t";

        if (take ('u'))
        {
            appendUtf8 (text, parseCodePoint());
            return;
        }

        const auto which = at < document.size() ? letters.find (document[at]) : std::string_view::npos;

        if (which == std::string_view::npos)
            failHere ("one of \" \\ / b f n r t u after a backslash");

        text += meanings[which];
        ++at;
    }

    unsigned parseCodePoint()
    {
        const auto start = at;
        const auto first = parseFourHexDigits();
        const auto isHigh = first >= 0xd800 && first < 0xdc00;

        if (isHigh && takeWord ("\\u"))
            if (const auto second = parseFourHexDigits(); second >= 0xdc00 && second < 0xe000)
                return 0x10000 + ((first - 0xd800) << 10) + (second - 0xdc00);

        if (first >= 0xd800 && first < 0xe000)
            fail (start, "half a surrogate pair", "both halves");

        return first;
    }

    unsigned parseFourHexDigits()
    {
        unsigned value = 0;

        for (int i = 0; i < 4; ++i)
        {
            static constexpr std::string_view digits = "0123456789abcdef";
            const auto c = at < document.size() ? document[at] : '\0';
            const auto digit = digits.find (c >= 'A' && c <= 'F' ? static_cast<char> (c - 'A' + 'a') : c);

            if (digit == std::string_view::npos)
                failHere ("four hexadecimal digits");

            value = value * 16 + static_cast<unsigned> (digit);
            ++at;
        }

        return value;
    }

    Json parseNumber()
    {
        auto rest = document.substr (at);
        const auto unsignedPart = rest.substr (rest.starts_with ('-') ? 1 : 0);
        const auto isDigit = [&] (std::size_t i)
        { return i < unsignedPart.size() && unsignedPart[i] >= '0' && unsignedPart[i] <= '9'; };

        // takeNumber() is what a person may type; JSON allows less: no plus, no leading zero, digits around the point.
        if (! isDigit (0) || (unsignedPart[0] == '0' && isDigit (1)))
            failHere ("a number, a text in double quotes, true, false, null, '{' or '['");

        const auto value = takeNumber (rest);
        const auto end = document.size() - rest.size();

        if (document[end - 1] == '.' || document.substr (at, end - at).find (".e") != std::string_view::npos ||
            document.substr (at, end - at).find (".E") != std::string_view::npos)
            fail (at, "a number that ends in its decimal point", "digits after the point");

        if (! std::isfinite (*value))
            fail (at, "a number beyond 1e308", "a number that a computer can hold");

        at = end;
        return *value;
    }

    std::string_view document;
    const std::string& source;
    std::size_t at = 0;
};
} // namespace

Json Json::parse (std::string_view document, const std::string& source)
{
    return Parser (document, source).parse();
}

} // namespace files
