#pragma once

#include <string>

namespace tool
{

/** How a shape is drawn: colours as SVG names or #rrggbb, "none" for no fill or line. */
struct Ink
{
    const char* fill = "none";
    const char* line = "none";
    double lineWidth = 1.0;
};

/** Where a text stands relative to its point. */
enum class Anchor
{
    start,
    middle,
    end
};

/** Collects shapes into one SVG picture; coordinates in pixels, y downwards. */
class Svg
{
public:
    Svg (double width, double height);

    void line (double x1, double y1, double x2, double y2, const Ink&);
    void circle (double x, double y, double radius, const Ink&);
    void rectangle (double x, double y, double width, double height, const Ink&);
    void text (double x, double y, const std::string& words, double size, Anchor, bool isBold = false);

    std::string written() const;

private:
    std::string head, body;
};

} // namespace tool
