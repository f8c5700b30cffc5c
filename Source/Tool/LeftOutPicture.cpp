#include "LeftOutPicture.h"

#include "OutputFile.h"
#include "OutputTarget.h"

#include "Modal/NumberText.h"
#include "Sheets/Canvas.h"

#include <algorithm>
#include <cmath>

namespace tool
{

using sheets::Align;
using sheets::Canvas;

namespace
{
constexpr double margin = 30.0, labelWidth = 120.0, plotWidth = 520.0, rowHeight = 44.0, gap = 10.0, axisHeight = 26.0; // points
constexpr double panelHeight = 16.0 + 2.0 * (rowHeight + gap) + axisHeight;
constexpr sheets::Colour partialColour{ 0.851, 0.467, 0.0 }; // stands out from greys by brightness as well as by hue

/** Pitch from left to right, from just below the lowest partial to just above the highest. */
struct Axis
{
    double low, high; ///< Hz

    double xOf (double hertz) const { return margin + labelWidth + plotWidth * std::log (hertz / low) / std::log (high / low); }
};

void drawRow (Canvas& canvas, const Axis& axis, double top, const std::string& name, const fitting::Prediction& prediction,
              const std::vector<fitting::Line>& lines)
{
    const double wide = std::exp2 (fitting::Prediction::near / 1200.0);
    canvas.text (margin, top + 16.0, name, 9.0);
    canvas.text (margin, top + 28.0,
                 "explains " + modal::fixedText (100.0 * prediction.share, 0) + " %, by chance " +
                     modal::fixedText (100.0 * prediction.byChance, 0) + " %",
                 7.0);

    for (const double mode : prediction.modes)
        if (mode > axis.low && mode < axis.high)
        {
            const double from = axis.xOf (std::max (axis.low, mode / wide)), to = axis.xOf (std::min (axis.high, mode * wide));
            canvas.area (from, top, to - from, rowHeight, 0.85);
        }

    for (const double mode : prediction.modes)
        if (mode > axis.low && mode < axis.high)
            canvas.line (axis.xOf (mode), top, axis.xOf (mode), top + rowHeight, 0.5, 0.4);

    for (const auto& line : lines)
    {
        const double decibels = 20.0 * std::log10 (std::max (line.loudness, 1.0e-3));
        const double height = rowHeight * std::clamp (1.0 + decibels / 60.0, 0.1, 1.0);
        canvas.line (axis.xOf (line.frequency), top + rowHeight - height, axis.xOf (line.frequency), top + rowHeight, 1.5,
                     partialColour);
    }

    canvas.box (margin + labelWidth, top, plotWidth, rowHeight, 0.5);
}

void drawCheck (Canvas& canvas, double top, const fitting::LeftOutCheck& check, std::size_t number)
{
    canvas.text (margin, top + 8.0, "Half " + std::to_string (number) + " of the strikes left out", 9.0, Align::left, true);

    if (check.linesLeftOut.empty())
    {
        canvas.text (margin, top + 24.0, "No partials in common.", 9.0);
        return;
    }

    const Axis axis{ 0.9 * check.linesLeftOut.front().frequency, 1.1 * check.linesLeftOut.back().frequency };
    double row = top + 16.0;

    if (check.isFitted)
        drawRow (canvas, axis, row, "Fit", check.model, check.linesLeftOut);
    else
        canvas.text (margin, row + 16.0, "Fit: none", 9.0);

    drawRow (canvas, axis, row += rowHeight + gap, "Heads without air", check.vacuum, check.linesLeftOut);
    row += rowHeight;

    for (const double hertz : { 60.0, 80.0, 100.0, 150.0, 200.0, 300.0, 400.0, 600.0, 800.0, 1200.0, 1600.0 })
        if (hertz > axis.low && hertz < axis.high)
        {
            canvas.line (axis.xOf (hertz), row, axis.xOf (hertz), row + 3.0, 0.5);
            canvas.text (axis.xOf (hertz), row + 11.0, modal::fixedText (hertz, 0), 7.0, Align::middle);
        }

    canvas.text (margin + labelWidth - 5.0, row + 11.0, "Hz", 7.0, Align::right);
}
} // namespace

void writeLeftOutPicture (const Arguments& arguments, const std::vector<fitting::LeftOutCheck>& checks)
{
    const auto target = outputTarget (arguments, "picture", { ".svg", ".pdf", ".png" });

    if (! target)
        return;

    const double height = 2.0 * margin + 16.0 + static_cast<double> (checks.size()) * panelHeight;
    const auto draw = [&] (Canvas& canvas)
    {
        canvas.text (margin, margin,
                     "Orange: partials of the strikes left out, taller is louder. Lines: predicted modes; grey: within 40 cents of them.",
                     8.0);

        for (std::size_t i = 0; i < checks.size(); ++i)
            drawCheck (canvas, margin + 16.0 + static_cast<double> (i) * panelHeight, checks[i], i + 1);
    };
    const auto format = *target == "-" ? sheets::Format::svg : sheets::formatOf (*target, "--picture");
    writeText (*target, sheets::drawn (format, 2.0 * margin + labelWidth + plotWidth, height, draw));
}

} // namespace tool
