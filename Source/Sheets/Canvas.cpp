#include "Canvas.h"

#include "FontFace.h"

#include "Modal/InputError.h"
#include "Modal/Units.h"

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <cairo.h>

#include <algorithm>
#include <cctype>
#include <sstream>
#include <stdexcept>

namespace sheets
{
namespace
{

constexpr double pixelsPerPoint = 2.0;

cairo_status_t append (void* bytes, const unsigned char* data, unsigned int length)
{
    static_cast<std::string*> (bytes)->append (reinterpret_cast<const char*> (data), length);
    return CAIRO_STATUS_SUCCESS;
}

/** Where the character that ends at `end` begins, in UTF-8. */
std::size_t characterBefore (const std::string& text, std::size_t end)
{
    const auto goesOn = [&] (std::size_t i) { return (static_cast<unsigned char> (text[i]) & 0xC0u) == 0x80u; };

    do
        --end;
    while (end > 0 && goesOn (end));

    return end;
}

} // namespace

struct Canvas::Cairo
{
    cairo_surface_t* surface = nullptr;
    cairo_t* context = nullptr;

    explicit Cairo (cairo_surface_t* s) : surface (s), context (cairo_create (s)) {}
    ~Cairo()
    {
        cairo_destroy (context);
        cairo_surface_destroy (surface);
    }
    Cairo (const Cairo&) = delete;
    Cairo& operator= (const Cairo&) = delete;
};

bool endsIn (const std::string& fileName, const std::string& ending)
{
    const auto isSame = [] (char a, char b) { return std::tolower (static_cast<unsigned char> (a)) == b; };
    return fileName.size() >= ending.size() && std::equal (ending.rbegin(), ending.rend(), fileName.rbegin(),
                                                           [&] (char wanted, char given) { return isSame (given, wanted); });
}

Format formatOf (const std::string& fileName, const std::string& field)
{
    const auto ends = [&] (const char* ending) { return endsIn (fileName, ending); };

    if (ends (".pdf"))
        return Format::pdf;

    if (ends (".svg"))
        return Format::svg;

    if (ends (".png"))
        return Format::png;

    throw modal::InputError (field, '"' + fileName + '"', "a file name that ends in .pdf, .svg or .png");
}

Canvas::Canvas (std::unique_ptr<Cairo> c, double width, double height)
    : cairo (std::move (c)), pageWidth (width), pageHeight (height)
{
}

Canvas::~Canvas() = default;

void Canvas::setFont (double size, bool isBold)
{
    cairo_set_font_face (cairo->context, fontFace (isBold));
    cairo_set_font_size (cairo->context, size);
}

void Canvas::stroke (double lineWidth, Colour colour)
{
    cairo_set_source_rgb (cairo->context, colour.red, colour.green, colour.blue);
    cairo_set_line_width (cairo->context, lineWidth);
    cairo_stroke (cairo->context);
}

void Canvas::fill (Colour colour)
{
    cairo_set_source_rgb (cairo->context, colour.red, colour.green, colour.blue);
    cairo_fill (cairo->context);
}

void Canvas::line (double x1, double y1, double x2, double y2, double lineWidth, Colour colour)
{
    cairo_move_to (cairo->context, x1, y1);
    cairo_line_to (cairo->context, x2, y2);
    stroke (lineWidth, colour);
}

void Canvas::circle (double x, double y, double radius, double lineWidth, Colour colour)
{
    cairo_new_path (cairo->context);
    cairo_arc (cairo->context, x, y, radius, 0.0, modal::units::twoPi);
    stroke (lineWidth, colour);
}

void Canvas::disc (double x, double y, double radius, Colour colour)
{
    cairo_new_path (cairo->context);
    cairo_arc (cairo->context, x, y, radius, 0.0, modal::units::twoPi);
    fill (colour);
}

void Canvas::box (double x, double y, double w, double h, double lineWidth, Colour colour)
{
    cairo_rectangle (cairo->context, x, y, w, h);
    stroke (lineWidth, colour);
}

void Canvas::area (double x, double y, double w, double h, Colour colour)
{
    cairo_rectangle (cairo->context, x, y, w, h);
    fill (colour);
}

double Canvas::widthOf (const std::string& words, double size, bool isBold)
{
    setFont (size, isBold);
    cairo_text_extents_t extents;
    cairo_text_extents (cairo->context, words.c_str(), &extents);
    return extents.x_advance;
}

void Canvas::text (double x, double y, const std::string& words, double size, Align align, bool isBold, Colour colour)
{
    const double w = widthOf (words, size, isBold);
    cairo_set_source_rgb (cairo->context, colour.red, colour.green, colour.blue);
    cairo_move_to (cairo->context, align == Align::left ? x : align == Align::middle ? x - 0.5 * w : x - w, y);
    cairo_show_text (cairo->context, words.c_str());
}

std::vector<std::string> Canvas::wrapped (const std::string& words, double w, double size, bool isBold)
{
    const auto fits = [&] (const std::string& line) { return widthOf (line, size, isBold) <= w; };
    std::vector<std::string> lines;
    std::istringstream rows (words);

    for (std::string row; std::getline (rows, row);)
    {
        std::istringstream stream (row);
        std::string line;

        for (std::string word; stream >> word;)
        {
            const auto longer = line.empty() ? word : line + " " + word;

            if (fits (longer))
            {
                line = longer;
                continue;
            }

            if (! line.empty())
                lines.push_back (line);

            // A word that does not fit on a line is broken between characters.
            while (! fits (word))
            {
                auto part = word;

                while (! fits (part) && characterBefore (part, part.size()) > 0)
                    part.resize (characterBefore (part, part.size()));

                lines.push_back (part);
                word.erase (0, part.size());
            }

            line = word;
        }

        lines.push_back (line);
    }

    return lines;
}

double Canvas::paragraph (double x, double y, double w, const std::string& words, double size, bool isBold, double bottom)
{
    const auto mark = std::string ("… (shortened; full text in the JSON)");
    const auto step = leading * size;
    auto lines = wrapped (words, w, size, isBold);
    const auto room = bottom < y ? 0 : static_cast<std::size_t> ((bottom - y) / step) + 1;

    if (lines.size() > room)
    {
        lines.resize (room);

        if (room > 0)
        {
            auto& last = lines.back();

            while (! last.empty() && widthOf (last + mark, size, isBold) > w)
                last.resize (characterBefore (last, last.size()));

            last += mark;
        }
    }

    for (const auto& line : lines)
    {
        text (x, y, line, size, Align::left, isBold);
        y += step;
    }

    return y;
}

std::string drawn (Format format, double width, double height, const std::function<void (Canvas&)>& draw)
{
    return drawn (format, width, height, std::vector{ draw });
}

std::string drawn (Format format, double width, double height, const std::vector<std::function<void (Canvas&)>>& pages)
{
    const double surfaceHeight = format == Format::pdf ? height : height * static_cast<double> (pages.size());
    std::string bytes;
    cairo_surface_t* surface = nullptr;

    if (format == Format::pdf)
        surface = cairo_pdf_surface_create_for_stream (append, &bytes, width, height);
    else if (format == Format::svg)
        surface = cairo_svg_surface_create_for_stream (append, &bytes, width, surfaceHeight);
    else
        surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, static_cast<int> (width * pixelsPerPoint + 0.5),
                                              static_cast<int> (surfaceHeight * pixelsPerPoint + 0.5));

    Canvas canvas (std::make_unique<Canvas::Cairo> (surface), width, height);

    if (format == Format::png)
        cairo_scale (canvas.cairo->context, pixelsPerPoint, pixelsPerPoint);

    const auto paintWhite = [&]
    {
        cairo_set_source_rgb (canvas.cairo->context, 1.0, 1.0, 1.0);
        cairo_paint (canvas.cairo->context);
    };
    paintWhite(); // also the part of a pixel beyond the page

    for (std::size_t i = 0; i < pages.size(); ++i)
    {
        if (i > 0 && format == Format::pdf)
        {
            cairo_show_page (canvas.cairo->context);
            paintWhite();
        }
        else if (i > 0)
        {
            cairo_translate (canvas.cairo->context, 0.0, height);
        }

        pages[i] (canvas);
    }

    if (format == Format::png)
        cairo_surface_write_to_png_stream (surface, append, &bytes);
    else
        cairo_show_page (canvas.cairo->context);

    cairo_surface_finish (surface);
    const auto status = cairo_surface_status (surface);

    if (status != CAIRO_STATUS_SUCCESS && status != CAIRO_STATUS_SURFACE_FINISHED)
        throw std::runtime_error (std::string ("cannot draw: ") + cairo_status_to_string (status));

    return bytes;
}

} // namespace sheets
