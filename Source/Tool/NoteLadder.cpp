#include "NoteLadder.h"

#include "OutputFile.h"
#include "OutputTarget.h"

#include "Modal/NumberText.h"
#include "Reports/Label.h"
#include "Sheets/Canvas.h"

#include <algorithm>
#include <cmath>

namespace tool
{

using namespace modal;
using namespace reports;
using sheets::Align;
using sheets::Canvas;

namespace
{
constexpr double rungHeight = 13.0, laneWidth = 105.0, axisWidth = 60.0, topMargin = 90.0, bottomMargin = 60.0, columnGap = 20.0;
constexpr double columnWidth = 3.0 * laneWidth + columnGap;

/** Modes are drawn up to so far above the lowest: beyond that they lie closer than a rung. */
constexpr int mostRungs = 30;

// Dark blue and a lighter orange differ in brightness as well, so they hold in grey print and for the colour-blind.
constexpr sheets::Colour batterColour{ 0.043, 0.235, 0.435 };
constexpr sheets::Colour resonantColour{ 0.851, 0.467, 0.0 };
constexpr sheets::Colour drumColour{ 0.0 };

/** The semitones that the picture spans, as MIDI numbers. */
struct Span
{
    int lowest, highest;
    ConcertPitch pitch;

    double midiOf (double hertz) const
    {
        const auto note = Note::fromFrequency (hertz, pitch);
        return note.midi + note.cents / 100.0;
    }

    bool holds (double hertz) const { return midiOf (hertz) <= highest; }
    double yOf (double hertz) const { return topMargin + (highest - midiOf (hertz)) * rungHeight; }
    double height() const { return (highest - lowest) * rungHeight; }
};

Span spanOf (const std::vector<NamedPrediction>& columns)
{
    const auto pitch = columns.front().prediction.tuning.concertPitch;
    double lowest = 1.0e9, highest = 0.0; // the drum note is the lowest of all but an air mode, which is not drawn

    for (const auto& column : columns)
    {
        const auto& p = column.prediction;
        lowest = std::min (lowest, p.drumNote);
        highest = std::max ({ highest, p.batter.tapNote, p.resonant.tapNote, p.modes.empty() ? 0.0 : p.modes.back().frequency });
    }

    Span span{ 0, 127, pitch };
    span.lowest = static_cast<int> (std::floor (span.midiOf (lowest))) - 2;
    span.highest = std::min (static_cast<int> (std::ceil (span.midiOf (highest))) + 1, span.lowest + mostRungs);
    return span;
}

void drawRungs (Canvas& canvas, const Span& span, double width)
{
    for (int midi = span.lowest; midi <= span.highest; ++midi)
    {
        const Note note{ midi, 0.0 };
        const auto hertz = note.frequency (span.pitch);
        const auto y = span.yOf (hertz);
        const auto name = note.name();
        const auto isNatural = name.find ('#') == std::string::npos;
        const auto isC = isNatural && name[0] == 'C';

        canvas.line (axisWidth, y, width - axisWidth, y, isC ? 2.0 : 0.8, isNatural ? 0.69 : 0.89);
        canvas.text (axisWidth - 6.0, y + 4.0, name, isNatural ? 12.0 : 9.0, Align::right, isC);

        if (isNatural)
            canvas.text (width - axisWidth + 6.0, y + 4.0, fixedText (hertz, 0) + " Hz", 10.0);
    }
}

/** A mark whose area says how much of the heads' energy the mode has in this head. */
void drawShare (Canvas& canvas, double x, double y, double share, bool isBatter)
{
    constexpr double fullRadius = 6.0, leastVisible = 0.03;

    if (share < leastVisible)
        return;

    const auto r = fullRadius * std::sqrt (share);

    if (isBatter)
    {
        canvas.disc (x, y, r, batterColour);
    }
    else
    {
        canvas.area (x - r, y - r, 2.0 * r, 2.0 * r, 1.0);
        canvas.box (x - r, y - r, 2.0 * r, 2.0 * r, 2.0, resonantColour);
    }
}

void drawTapNote (Canvas& canvas, const Span& span, double laneLeft, double hertz, const Prediction& p, bool isBatter)
{
    const auto y = span.yOf (hertz);
    canvas.line (laneLeft + 6.0, y, laneLeft + laneWidth - 6.0, y, 4.0, isBatter ? batterColour : resonantColour);
    canvas.text (laneLeft + 0.5 * laneWidth, y - 5.0, "tap " + noteOf (hertz, p), 12.0, Align::middle, true);
}

void drawModes (Canvas& canvas, const Span& span, double left, const Prediction& p)
{
    constexpr double textHeight = 10.0;
    const auto drumLeft = left + laneWidth;
    auto lastLabel = 1.0e9;

    for (const auto& mode : p.modes)
    {
        if (mode.isAirMode || ! span.holds (mode.frequency))
            continue;

        const auto y = span.yOf (mode.frequency);
        const auto inHeads = std::max (mode.shares.batter + mode.shares.resonant, 1.0e-12);
        drawShare (canvas, left + 0.82 * laneWidth, y, mode.shares.batter / inHeads, true);
        drawShare (canvas, left + 2.18 * laneWidth, y, mode.shares.resonant / inHeads, false);
        canvas.line (drumLeft + 6.0, y, drumLeft + 0.5 * laneWidth, y, 1.6, drumColour);

        // Labels of modes that lie too close would print over one another; the list of modes has them all.
        if (lastLabel - y < textHeight)
            continue;

        lastLabel = y;
        canvas.text (drumLeft + 0.53 * laneWidth, y + 4.0, nameOf (mode), 10.0);
    }

    const auto y = span.yOf (p.drumNote);
    canvas.line (drumLeft + 6.0, y, drumLeft + 0.5 * laneWidth, y, 5.0, drumColour);
    canvas.text (drumLeft + 0.5 * laneWidth, y + 16.0, "drum " + noteOf (p.drumNote, p), 12.0, Align::middle, true);
}

void drawColumn (Canvas& canvas, const Span& span, double left, const NamedPrediction& column)
{
    const auto& p = column.prediction;
    const auto lane = [&] (int index) { return left + index * laneWidth; };
    const auto heading = [&] (int index, const char* words)
    { canvas.text (lane (index) + 0.5 * laneWidth, topMargin - 14.0, words, 11.0, Align::middle); };

    canvas.box (left, topMargin - 28.0, 3.0 * laneWidth, span.height() + 34.0, 1.0, 0.38);
    canvas.text (left + 1.5 * laneWidth, topMargin - 38.0, column.label, 14.0, Align::middle, true);
    heading (0, "batter head");
    heading (1, "drum");
    drawModes (canvas, span, left, p);
    drawTapNote (canvas, span, lane (0), p.batter.tapNote, p, true);

    if (p.drum.hasResonantHead())
    {
        heading (2, "resonant head");
        drawTapNote (canvas, span, lane (2), p.resonant.tapNote, p, false);
    }
}

void drawLegend (Canvas& canvas, double y)
{
    canvas.paragraph (axisWidth, y, canvas.width() - 2.0 * axisWidth,
                      "Thick bars: tap notes (other head held still) and the drum note. Thin lines: modes (diameters, circles). "
                      "Marks: share of each head in a mode, by area.",
                      10.0);
}
} // namespace

void writeNoteLadder (const Arguments& arguments, const std::vector<NamedPrediction>& columns)
{
    const auto target = outputTarget (arguments, "picture", { ".svg", ".pdf", ".png" });

    if (! target)
        return;

    const auto format = sheets::endsIn (*target, ".pdf")   ? sheets::Format::pdf
                        : sheets::endsIn (*target, ".png") ? sheets::Format::png
                                                           : sheets::Format::svg; // also for standard output
    const auto span = spanOf (columns);
    const auto width = 2.0 * axisWidth + static_cast<double> (columns.size()) * columnWidth - columnGap + 20.0;
    const auto draw = [&] (Canvas& canvas)
    {
        canvas.text (axisWidth, 22.0, "Tap notes of the heads and modes of the drum", 16.0, Align::left, true);
        drawRungs (canvas, span, width);

        for (std::size_t i = 0; i < columns.size(); ++i)
            drawColumn (canvas, span, axisWidth + 10.0 + static_cast<double> (i) * columnWidth, columns[i]);

        drawLegend (canvas, topMargin + span.height() + 36.0);
    };

    writeText (*target, sheets::drawn (format, width, topMargin + span.height() + bottomMargin, draw));
}

} // namespace tool
