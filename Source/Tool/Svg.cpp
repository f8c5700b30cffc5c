#include "Svg.h"

#include "TextTable.h"

#include "Modal/NumberText.h"

namespace tool
{
namespace
{
std::string attribute (const char* name, const std::string& value)
{
    return std::string (" ") + name + "=\"" + value + "\"";
}

std::string attribute (const char* name, double value)
{
    return attribute (name, modal::fixedText (value, 2));
}

std::string attributes (const Ink& ink)
{
    return attribute ("fill", ink.fill) + attribute ("stroke", ink.line) + attribute ("stroke-width", ink.lineWidth);
}

std::string escaped (const std::string& words)
{
    std::string text;

    for (const char c : words)
    {
        switch (c)
        {
        case '&':
            text += "&amp;";
            break;
        case '<':
            text += "&lt;";
            break;
        case '>':
            text += "&gt;";
            break;
        default:
            text += static_cast<unsigned char> (c) < 0x20 ? ' ' : c;
        }
    }

    return text;
}
} // namespace

Svg::Svg (double width, double height)
    : head ("<svg xmlns=\"http://www.w3.org/2000/svg\"" + attribute ("width", width) + attribute ("height", height) +
            attribute ("viewBox", "0 0 " + modal::fixedText (width, 2) + " " + modal::fixedText (height, 2)) +
            " font-family=\"sans-serif\">\n")
{
    rectangle (0.0, 0.0, width, height, { .fill = "white" });
}

void Svg::line (double x1, double y1, double x2, double y2, const Ink& ink)
{
    body += "<line" + attribute ("x1", x1) + attribute ("y1", y1) + attribute ("x2", x2) + attribute ("y2", y2) +
            attributes (ink) + "/>\n";
}

void Svg::circle (double x, double y, double radius, const Ink& ink)
{
    body += "<circle" + attribute ("cx", x) + attribute ("cy", y) + attribute ("r", radius) + attributes (ink) + "/>\n";
}

void Svg::rectangle (double x, double y, double width, double height, const Ink& ink)
{
    body += "<rect" + attribute ("x", x) + attribute ("y", y) + attribute ("width", width) + attribute ("height", height) +
            attributes (ink) + "/>\n";
}

void Svg::text (double x, double y, const std::string& words, double size, Anchor anchor, bool isBold)
{
    static constexpr const char* anchors[] = { "start", "middle", "end" };
    body += "<text" + attribute ("x", x) + attribute ("y", y) + attribute ("font-size", size) +
            attribute ("text-anchor", anchors[static_cast<int> (anchor)]) + (isBold ? attribute ("font-weight", "bold") : "") +
            ">" + escaped (words) + "</text>\n";
}

std::string Svg::written() const
{
    return head + body + "</svg>\n";
}

} // namespace tool
