#include "Json.h"
#include "NumberText.h"

#include <cmath>
#include <cstdio>

namespace files
{
namespace
{
void writeText (std::string& out, const std::string& text)
{
    out += '"';

    for (const char c : text)
    {
        if (c == '"' || c == '\\')
        {
            out += '\\';
            out += c;
        }
        else if (static_cast<unsigned char> (c) < 0x20)
        {
            char escaped[8];
            std::snprintf (escaped, sizeof (escaped), "\\u%04x", static_cast<unsigned> (c));
            out += escaped;
        }
        else
        {
            out += c;
        }
    }

    out += '"';
}

void write (std::string& out, const Json& value, std::size_t level);

/** Writes the items of an object or a list between brackets, one a line. */
template <class Container, class WriteItem>
void writeItems (std::string& out, const Container& items, char open, char close, std::size_t level, WriteItem writeItem)
{
    out += open;
    const char* separator = "\n";

    for (const auto& item : items)
    {
        out += separator;
        out.append (2 * (level + 1), ' ');
        writeItem (item);
        separator = ",\n";
    }

    if (! items.empty())
    {
        out += '\n';
        out.append (2 * level, ' ');
    }

    out += close;
}

void write (std::string& out, const Json& value, std::size_t level)
{
    if (const auto* members = value.object())
        writeItems (out, *members, '{', '}', level,
                    [&] (const auto& member)
                    {
                        writeText (out, member.first);
                        out += ": ";
                        write (out, member.second, level + 1);
                    });
    else if (const auto* items = value.array())
        writeItems (out, *items, '[', ']', level, [&] (const Json& item) { write (out, item, level + 1); });
    else if (const auto* text = value.text())
        writeText (out, *text);
    else if (const auto* number = value.number())
        out += std::isfinite (*number) ? exactText (*number) : "null";
    else if (const auto* boolean = value.boolean())
        out += *boolean ? "true" : "false";
    else
        out += "null";
}
} // namespace

std::string Json::written() const
{
    std::string out;
    write (out, *this, 0);
    out += '\n';
    return out;
}

} // namespace files
