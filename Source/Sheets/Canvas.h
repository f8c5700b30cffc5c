#pragma once

#include <functional>
#include <memory>
#include <string>
#include <vector>

namespace sheets
{

/** File format of a drawing. */
enum class Format
{
    pdf,
    svg,
    png
};

/** "pdf", "svg" or "png" by a file name's ending; throws modal::InputError on `field` for another. */
Format formatOf (const std::string& fileName, const std::string& field);

/** Whether a file name ends in `ending`, such as ".pdf", in lower or upper case. */
bool endsIn (const std::string& fileName, const std::string& ending);

enum class Align
{
    left,
    middle,
    right
};

/** Red, green and blue from 0 (black) to 1; a single number is a grey. */
struct Colour
{
    constexpr Colour (double grey) noexcept : Colour (grey, grey, grey) {}
    constexpr Colour (double r, double g, double b) noexcept : red (r), green (g), blue (b) {}

    double red, green, blue;
};

/** A page to draw on: units are points (1/72 inch), y downwards. */
class Canvas
{
public:
    ~Canvas();
    Canvas (const Canvas&) = delete;
    Canvas& operator= (const Canvas&) = delete;

    double width() const noexcept { return pageWidth; }
    double height() const noexcept { return pageHeight; }

    void line (double x1, double y1, double x2, double y2, double lineWidth = 1.0, Colour = 0.0);
    void circle (double x, double y, double radius, double lineWidth = 1.0, Colour = 0.0);
    void disc (double x, double y, double radius, Colour);
    void box (double x, double y, double w, double h, double lineWidth = 1.0, Colour = 0.0);
    void area (double x, double y, double w, double h, Colour);
    void text (double x, double y, const std::string& words, double size, Align = Align::left, bool isBold = false, Colour = 0.0);

    /** Wraps words to a width; a word wider than that is broken. Line breaks in the text are kept. */
    std::vector<std::string> wrapped (const std::string& words, double w, double size, bool isBold = false);

    /** Writes words wrapped to a width, no line lower than `bottom`. If they do not all fit, the last line ends in a mark.
       Returns the y of the next line. */
    double paragraph (double x, double y, double w, const std::string& words, double size, bool isBold = false,
                      double bottom = 1.0e9);

    /** Line spacing of a paragraph as a multiple of its size. */
    static constexpr double leading = 1.3;

    double widthOf (const std::string& words, double size, bool isBold = false);

private:
    friend std::string drawn (Format, double, double, const std::vector<std::function<void (Canvas&)>>&);
    struct Cairo;
    explicit Canvas (std::unique_ptr<Cairo>, double width, double height);
    void setFont (double size, bool isBold);
    void stroke (double lineWidth, Colour);
    void fill (Colour);

    std::unique_ptr<Cairo> cairo;
    double pageWidth, pageHeight;
};

/** A4 upright, in points (ISO 216: 210 × 297 mm). */
inline constexpr double pageWidthA4 = 210.0 / 25.4 * 72.0, pageHeightA4 = 297.0 / 25.4 * 72.0;

/** The drawing as the bytes of a file. PNG has 2 pixels per point. Throws std::runtime_error on failure. */
std::string drawn (Format, double width, double height, const std::function<void (Canvas&)>& draw);

/** Several pages: of a PDF one after the other, in the other formats one below the other. */
std::string drawn (Format, double width, double height, const std::vector<std::function<void (Canvas&)>>& pages);

} // namespace sheets
