#include "AtlasMap.h"

#include "Modal/NumberText.h"
#include "Modal/pitch/Note.h"

#include <algorithm>
#include <cmath>

namespace sheets
{

using namespace modal;

namespace
{

struct Quantity
{
    const char* title;
    double (*of) (const AtlasPoint&);
    int decimals;
};

const Quantity quantities[] = {
    { "Drum note, Hz", [] (const AtlasPoint& p) { return p.drumNote; }, 0 },
    { "Ring, s to -60 dB, wires off", [] (const AtlasPoint& p) { return p.sustain; }, 2 },
    { "Snare response, m/s per N s", [] (const AtlasPoint& p) { return p.wireResponse; }, 1 },
    { "Head stress, % of yield strength, the higher of both heads", [] (const AtlasPoint& p) { return 100.0 * p.largestStress; },
      0 },
};

/** Labels every n-th cell, so that labels do not overlap. */
std::size_t labelEvery (std::size_t cells, double space, double wanted)
{
    return static_cast<std::size_t> (std::max (1.0, std::ceil (wanted * static_cast<double> (cells) / space)));
}

constexpr double columnNameSize = 7.0;

struct Span
{
    double low, high;
};

/** Draws a cell's figure at its centre, but within the frame. */
void drawFigure (Canvas& canvas, const std::string& figure, double x, double y, Span frame, double grey)
{
    constexpr double size = 6.5, gap = 1.5;
    const double half = 0.5 * canvas.widthOf (figure, size) + gap;
    canvas.text (std::max (frame.low + half, std::min (x, frame.high - half)), y, figure, size, Align::middle, false, grey);
}

/** Labels every n-th column, so that the names do not overlap. */
std::size_t labelEveryColumn (Canvas& canvas, const std::vector<std::string>& names, double w)
{
    constexpr double figureWidth = 24.0, gap = 6.0;
    const double cellWidth = w / static_cast<double> (names.size());
    auto every = labelEvery (names.size(), w, figureWidth);

    const auto haveRoom = [&]
    {
        for (std::size_t i = 0; i < names.size(); i += every)
            if (canvas.widthOf (names[i], columnNameSize) + gap > static_cast<double> (every) * cellWidth)
                return false;

        return true;
    };

    while (every < names.size() && ! haveRoom())
        ++every;

    return every;
}

void drawMap (Canvas& canvas, const Atlas& atlas, const Quantity& quantity, double x, double y, double w, double h)
{
    const auto columns = atlas.notes.size(), rows = atlas.intervals.size();
    const double cellWidth = w / static_cast<double> (columns), cellHeight = h / static_cast<double> (rows);
    double low = 1.0e300, high = -1.0e300;

    for (const auto& point : atlas.points)
        if (point.isPossible)
        {
            low = std::min (low, quantity.of (point));
            high = std::max (high, quantity.of (point));
        }

    canvas.text (x, y - 6.0, quantity.title, 9.0, Align::left, true);
    std::vector<std::string> names;

    for (const double note : atlas.notes)
        names.push_back (Note::fromFrequency (note, atlas.request.concertPitch).nameWithCents());

    const auto everyColumn = labelEveryColumn (canvas, names, w), everyRow = labelEvery (rows, h, 9.0);

    const auto greyOf = [&] (const AtlasPoint& point)
    { return 1.0 - 0.75 * (high > low ? (quantity.of (point) - low) / (high - low) : 0.0); };
    const auto leftOf = [&] (std::size_t column) { return x + cellWidth * static_cast<double> (column); };
    const auto topOf = [&] (std::size_t row) { return y + h - cellHeight * static_cast<double> (row + 1); };

    for (std::size_t i = 0; i < columns; ++i)
        for (std::size_t j = 0; j < rows; ++j)
        {
            const double left = leftOf (i), top = topOf (j);

            if (atlas.at (i, j).isPossible)
            {
                canvas.area (left, top, cellWidth + 0.3, cellHeight + 0.3, greyOf (atlas.at (i, j)));
            }
            else
            {
                canvas.line (left, top, left + cellWidth, top + cellHeight, 0.4, 0.5);
                canvas.line (left, top + cellHeight, left + cellWidth, top, 0.4, 0.5);
            }
        }

    // Figures may be wider than their cells, so they are drawn last.
    for (std::size_t i = 0; i < columns; i += everyColumn)
        for (std::size_t j = 0; j < rows; j += everyRow)
            if (const auto& point = atlas.at (i, j); point.isPossible)
                drawFigure (canvas, fixedText (quantity.of (point), quantity.decimals), leftOf (i) + 0.5 * cellWidth,
                            topOf (j) + 0.5 * cellHeight + 2.2, { x, x + w }, greyOf (point) < 0.5 ? 1.0 : 0.0);

    canvas.box (x, y, w, h, 0.8);

    for (std::size_t i = 0; i < columns; i += everyColumn)
        canvas.text (x + cellWidth * (static_cast<double> (i) + 0.5), y + h + 10.0, names[i], columnNameSize, Align::middle);

    for (std::size_t j = 0; j < rows; j += everyRow)
        canvas.text (x - 4.0, y + h - cellHeight * (static_cast<double> (j) + 0.5) + 2.5, Interval{ atlas.intervals[j] }.name(),
                     7.0, Align::right);
}

} // namespace

void draw (Canvas& canvas, const Atlas& atlas, const std::string& title)
{
    constexpr double margin = 36.0, left = 36.0, gap = 22.0;
    canvas.text (margin, margin, title, 14.0, Align::left, true);
    canvas.text (
        margin, margin + 14.0,
        "Across: batter tap note. Up: interval of the resonant head over it. Darker is more. Crossed out: a head would be slack or "
        "beyond its yield strength.",
        8.5);
    const double w = 0.5 * (canvas.width() - 2.0 * margin) - left, h = 0.5 * (canvas.height() - 2.0 * margin - 40.0) - gap - 14.0;

    for (std::size_t q = 0; q < std::size (quantities); ++q)
        drawMap (canvas, atlas, quantities[q], margin + left + static_cast<double> (q % 2) * (w + left),
                 margin + 40.0 + static_cast<double> (q / 2) * (h + gap + 18.0), w, h);

    canvas.text (
        margin, canvas.height() - 24.0,
        "Snare response: speed of the resonant head after a light tap near the edge. The faster, the softer the stroke that "
        "wakes the wires.",
        8.0);
    canvas.text (margin, canvas.height() - 14.0, "Keep to the limits of the makers of heads and drum.", 8.0);
}

std::string asCsv (const Atlas& atlas)
{
    std::string text =
        "batter_tap_note_hz,interval_semitones,is_possible,drum_note_hz,drum_note_t60_s,wire_response_m_per_s_per_n_s,"
        "largest_yield_share\r\n";

    for (const auto& p : atlas.points)
    {
        text += modal::exactText (p.batterNote) + "," + modal::exactText (p.interval) + "," + (p.isPossible ? "1" : "0");

        for (const double value : { p.drumNote, p.sustain, p.wireResponse, p.largestStress })
            text += "," + (p.isPossible && std::isfinite (value) ? modal::exactText (value) : std::string());

        text += "\r\n";
    }

    return text;
}

files::Json asJson (const Atlas& atlas)
{
    files::Json points = files::Json::array();

    for (const auto& p : atlas.points)
    {
        files::Json point{ { "batter_tap_note_hz", p.batterNote }, { "interval_semitones", p.interval } };

        if (p.isPossible)
        {
            point["drum_note_hz"] = p.drumNote;
            point["drum_note_t60_s"] = p.sustain;
            point["wire_response_m_per_s_per_n_s"] = p.wireResponse;
            point["largest_yield_share"] = p.largestStress;
        }

        point["is_possible"] = p.isPossible;
        points.push_back (point);
    }

    return files::Json{ { "tunings", points } };
}

} // namespace sheets
