#include "TuningSheet.h"

#include "LugMap.h"
#include "PlanWords.h"

#include "Files/HeadText.h"
#include "Files/HoopNames.h"
#include "Modal/InputError.h"
#include "Modal/Units.h"
#include "Reports/Cautions.h"
#include "Wording/FitText.h"
#include "Wording/PlanText.h"

#include <algorithm>
#include <cmath>

namespace sheets
{

using namespace fitting;
using namespace modal;
using namespace reports;

namespace
{

constexpr double margin = 40.0, body = 10.0, small = 8.5, heading = 12.0;
constexpr double headingHeight = 20.0; ///< from a heading's line to the first line under it

std::string noteOf (double hertz, const TuningSheet& sheet)
{
    return Note::fromFrequency (hertz, sheet.wanted.tuning.concertPitch).nameWithCents();
}

std::string nameOf (HeadSide side)
{
    return side == HeadSide::batter ? "Batter" : "Resonant";
}

/** The part of the page that is still free: `y` is the baseline of the next line, `bottom` the lowest one allowed. */
struct Column
{
    Canvas& canvas;
    double y;
    double bottom;

    double width() const { return canvas.width() - 2.0 * margin; }

    void headed (const std::string& words)
    {
        canvas.text (margin, y, words, heading, Align::left, true);
        canvas.line (margin, y + 4.0, canvas.width() - margin, y + 4.0, 0.8);
        y += headingHeight;
    }

    void paragraph (const std::string& words, double size = body, bool isBold = false)
    {
        y = canvas.paragraph (margin, y, width(), words, size, isBold, bottom);
    }

    void row (const std::vector<std::string>& cells, const std::vector<double>& columns, bool isBold = false)
    {
        for (std::size_t i = 0; i < cells.size(); ++i)
            canvas.text (margin + columns[i], y, cells[i], body, i == 0 ? Align::left : Align::right, isBold || i == 0);

        y += 15.0;
    }

    /** The same column without its last so many points. */
    Column without (double height) const { return { canvas, y, bottom - height }; }
};

/** Height of a part with that many lines, its heading and the gap after it. */
double roomFor (std::size_t lines, double size)
{
    return headingHeight + static_cast<double> (lines) * Canvas::leading * size + 6.0;
}

void drawTitle (Column& column, const TuningSheet& sheet)
{
    constexpr double size = 18.0, gap = 20.0;
    auto& canvas = column.canvas;
    const double y = column.y + size;
    canvas.text (canvas.width() - margin, y, sheet.date, body, Align::right);
    const double w = column.width() - canvas.widthOf (sheet.date, body) - (sheet.date.empty() ? 0.0 : gap);
    column.y = canvas.paragraph (margin, y, w, sheet.title, size, true, y + Canvas::leading * size) - 2.0;
}

std::string wiresText (const WireSpec& wires)
{
    if (! wires.on)
        return "off";

    const double millimetres = 1.0e3 * wires.pressDepth;
    return std::to_string (wires.strands) + " strands, strainer tension " + asText (wires.strandTension, 3) + " N per strand, " +
           (millimetres >= 0.0 ? "wire pressure " + asText (millimetres, 2) + " mm"
                               : "gap to the head " + asText (-millimetres, 2) + " mm");
}

void drawDrum (Column& column, const TuningSheet& sheet)
{
    const auto& drum = sheet.wanted.drum;
    column.paragraph (asText (drum.diameter / units::inch, 4) + " x " + asText (drum.depth / units::inch, 4) + " in, " +
                      std::to_string (drum.lugs) + " lugs, shell " + drum.shell.material + " " +
                      asText (drum.shell.thickness / units::millimetre, 3) +
                      " mm, hoops: " + files::descriptionOf (sheet.fittings.hoop));
    column.paragraph ("Batter head: " + files::headText (drum.batter));

    if (drum.hasResonantHead())
    {
        column.paragraph ("Resonant head: " + files::headText (drum.resonant));
        column.paragraph ("Wires: " + wiresText (sheet.fittings.wires));
    }

    column.y += 9.0;
}

void drawTargets (Column& column, const TuningSheet& sheet)
{
    const auto& p = sheet.wanted;
    column.headed ("Target");
    const std::vector<double> columns{ 0.0, 120.0, 185.0, 280.0, 395.0, 515.0 };
    column.row ({ "Head", "tap note", "Hz", "tension, N/m", "force per rod, N", "of yield strength" }, columns, true);

    const auto add = [&] (HeadSide side, const HeadPrediction& head)
    {
        column.row ({ nameOf (side), noteOf (head.tapNote, sheet), fixedText (head.tapNote, 1), fixedText (head.tension, 0),
                      fixedText (head.forcePerLug, 0), fixedText (100.0 * head.yieldShare, 0) + " %" },
                    columns);
    };

    add (HeadSide::batter, p.batter);

    if (p.drum.hasResonantHead())
    {
        add (HeadSide::resonant, p.resonant);
        column.y += 2.0;
        column.paragraph ("Interval, resonant tap note over batter: " + p.interval.longName());
    }

    column.y += 2.0;
    column.paragraph ("Predicted drum note: " + noteOf (p.drumNote, sheet) + ", " + fixedText (p.drumNote, 1) + " Hz, ring " +
                          fixedText (p.sustain, 2) + " s to -60 dB, wires off" +
                          (sheet.ringWiresOn ? "; " + fixedText (*sheet.ringWiresOn, 2) + " s, wires on" : ""),
                      body, true);
    column.paragraph ("Tap notes: 25 mm from the edge beside a lug, other head held still, wires off. A4 = " +
                          asText (p.tuning.concertPitch.a4, 5) + " Hz.",
                      small);
    column.y += 8.0;
}

/** Cents with their uncertainty and, where they exceed it, the note of the lug in Hz. */
LugLabel labelOf (const Estimate& cents, const Estimate& tapNote)
{
    LugLabel label{ { (cents.value >= 0.0 ? "+" : "") + fixedText (cents.value, 0) + " ± " + fixedText (cents.error, 0) + " c" },
                    std::abs (cents.value) <= cents.error };

    if (! label.isUncertain)
        label.lines.push_back (fixedText (tapNote.value * std::exp2 (cents.value / 1200.0), 1) + " Hz");

    return label;
}

const MeasuredHead* measuredHead (const TuningSheet& sheet, HeadSide side)
{
    const auto found =
        std::find_if (sheet.measured.begin(), sheet.measured.end(), [&] (const auto& head) { return head.side == side; });
    return found == sheet.measured.end() ? nullptr : &*found;
}

LugMap lugMap (const TuningSheet& sheet, HeadSide side)
{
    const auto& p = sheet.wanted;
    const bool isBatter = side == HeadSide::batter;
    LugMap map{ .lugs = p.drum.lugs, .isFromBelow = ! isBatter };
    map.words = { nameOf (side) + ",", isBatter ? "seen from above" : "seen from below" };
    const auto* measured = measuredHead (sheet, side);

    if (measured != nullptr && ! measured->fit.lugCents.empty())
    {
        map.words.push_back ("as measured");

        for (const auto& cents : measured->fit.lugCents)
            map.labels.push_back (labelOf (cents, measured->fit.tapNote));
    }
    else
    {
        for (const double cents : isBatter ? p.tuning.lugs.batter : p.tuning.lugs.resonant)
            map.labels.push_back ({ { (cents >= 0.0 ? "+" : "") + fixedText (cents, 0) + " c" } });
    }

    return map;
}

void drawLugs (Column& column, const TuningSheet& sheet)
{
    constexpr double radius = 62.0, aboveMap = 20.0, belowMap = 44.0;
    auto& canvas = column.canvas;
    const bool hasResonant = sheet.wanted.drum.hasResonantHead();
    const double centre = 0.5 * canvas.width(), offset = hasResonant ? 0.25 * column.width() : 0.0;

    column.headed ("Lugs");
    const double mapY = column.y + radius + aboveMap;
    draw (canvas, lugMap (sheet, HeadSide::batter), centre - offset, mapY, radius);

    if (hasResonant)
        draw (canvas, lugMap (sheet, HeadSide::resonant), centre + offset, mapY, radius);

    column.y = mapY + radius + belowMap;

    column.paragraph ("Tightening order: " + wording::tighteningOrder (tighteningOrder (sheet.wanted.drum.lugs)));
    std::string words =
        "Lug 1: " + (sheet.lugOne.empty() ? std::string ("mark it on the shell") : sheet.lugOne) + ". Count clockwise seen from above.";

    if (hasResonant)
        words += " Turned over, the drum's resonant lugs count counterclockwise: resonant lug 2 is below batter lug 2.";

    // Two lines at most, however lug 1 is described.
    column.y = canvas.paragraph (margin, column.y, column.width(), words, small, false, column.y + Canvas::leading * small) + 8.0;
}

/** Boxes for handwritten notes, a row for each head without a measurement. */
void drawRoomForNotes (Column& column, const TuningSheet& sheet)
{
    constexpr double nameWidth = 60.0, rowHeight = 24.0;
    auto& canvas = column.canvas;
    std::vector<HeadSide> sides{ HeadSide::batter };

    if (sheet.wanted.drum.hasResonantHead())
        sides.push_back (HeadSide::resonant);

    std::erase_if (sides, [&] (HeadSide side) { return measuredHead (sheet, side) != nullptr; });

    if (sides.empty())
        return;

    column.headed ("Tap note at each lug");
    column.y -= 10.0;
    const double boxWidth = (column.width() - nameWidth) / sheet.wanted.drum.lugs;

    for (const auto side : sides)
    {
        canvas.text (margin, column.y + 0.6 * rowHeight, nameOf (side), body, Align::left, true);

        for (int lug = 0; lug < sheet.wanted.drum.lugs; ++lug)
        {
            const double x = margin + nameWidth + lug * boxWidth;
            canvas.box (x, column.y, boxWidth, rowHeight, 0.6, 0.4);
            canvas.text (x + 2.5, column.y + 7.5, std::to_string (lug + 1), 6.5, Align::left, false, 0.4);
        }

        column.y += rowHeight;
    }

    column.y += 18.0;
}

void drawMeasured (Column& column, const TuningSheet& sheet)
{
    if (sheet.measured.empty())
        return;

    column.headed ("Measured");

    for (const auto& measured : sheet.measured)
    {
        const auto& fit = measured.fit;
        const auto name = nameOf (measured.side) + ": ";

        if (fit.isPossible)
            column.paragraph (name + noteOf (fit.tapNote.value, sheet) + ", " + fixedText (fit.tapNote.value, 1) + " ± " +
                              fixedText (fit.tapNote.error, 1) + " Hz; tension " + fixedText (fit.tension.value, 0) + " ± " +
                              fixedText (fit.tension.error, 0) + " N/m; " +
                              (fit.tapsUsed == 1 ? "one tap" : std::to_string (fit.tapsUsed) + " taps") +
                              (measured.date.empty() ? "" : "; " + measured.date));
        else
            column.paragraph (name + "no result");

        if (const auto verdict = fit.verdict(); verdict.kind != LugVerdict::Kind::unknown)
            column.paragraph (wording::action (verdict, verdict.correction != 0.0
                                                            ? std::optional (turnsForLugCents (verdict.correction, sheet.wanted.drum,
                                                                                               measured.side, fit.tension.value))
                                                            : std::nullopt) +
                              ". " + wording::reason (verdict));

        for (const auto& wave : fit.lugWaves)
            column.paragraph ("Unevenness: " + wording::text (wave), small);

        for (const auto& finding : fit.findings)
            column.paragraph (wording::text (finding), finding.severity == Finding::Severity::note ? small : body);
    }

    column.y += 8.0;
}

void drawPlan (Column& column, const TuningSheet& sheet)
{
    if (! sheet.plan)
        return;

    column.headed ("Plan (key turns; up tightens)");

    for (const auto& head : sheet.plan->heads)
        for (const auto& line : planLines (head, sheet.wanted.tuning.concertPitch))
            column.paragraph (line, small);

    column.y += 8.0;
}

/** Which head is up at which step, and where the strainer stands. */
void drawOrder (Column& column, const TuningSheet& sheet)
{
    column.headed ("Order of work");
    std::vector<HeadSide> sides;

    if (sheet.plan)
        for (const auto& head : sheet.plan->heads)
            sides.push_back (head.side);
    else if (sheet.wanted.drum.hasResonantHead())
        sides = { HeadSide::resonant, HeadSide::batter };
    else
        sides = { HeadSide::batter };

    int step = 0;
    const auto add = [&] (const std::string& words) { column.paragraph (std::to_string (++step) + ". " + words, body); };

    if (sheet.wanted.drum.hasResonantHead())
        add ("Strainer off, wires clear of the head. Stand the drum on a soft cloth: the head that lies on it is held still.");

    for (const auto side : sides)
        add (side == HeadSide::resonant
                 ? "Turn the drum over, resonant head up. Turn its rods as planned, tap beside each lug, even it out."
                 : "Batter head up. Turn its rods as planned, tap beside each lug, even it out.");

    if (sheet.wanted.drum.hasResonantHead())
        add ("Batter head up, on its stand, strainer on: " + wiresText (sheet.fittings.wires) +
             ". Play softly; if the wires do not answer cleanly, adjust the strainer.");

    column.y += 8.0;
}

void drawCorrections (Column& column, const TuningSheet& sheet)
{
    if (sheet.corrections.empty())
        return;

    column.headed ("Corrections: turns for a tap that is off the target");
    std::vector<double> columns{ 0.0 };
    std::vector<std::string> names{ "Tap is off by" };

    for (const auto& head : sheet.corrections)
        for (const char* what : { ", one lug", ", all lugs" })
        {
            columns.push_back (60.0 + 113.0 * static_cast<double> (columns.size()));
            names.push_back (nameOf (head.side) + what);
        }

    column.row (names, columns, true);

    for (std::size_t i = 0; i < sheet.corrections.front().corrections.size(); ++i)
    {
        std::vector<std::string> cells{ signedText (sheet.corrections.front().corrections[i].cents, 0) + " c" };

        for (const auto& head : sheet.corrections)
        {
            cells.push_back (wording::nearFraction (head.corrections[i].oneRod));
            cells.push_back (wording::nearFraction (head.corrections[i].allRods));
        }

        column.row (cells, columns);
    }

    const bool isCalibrated = std::all_of (sheet.corrections.begin(), sheet.corrections.end(), [] (const auto& h) { return h.isCalibrated; });
    column.paragraph ("One lug: turn its rod only; a lug and the opposite one sound alike, so turn each by half. To lower, go 1/8 turn "
                      "further down, then up again." +
                          std::string (isCalibrated ? "" : " For a typical drum; yours may need half or twice as much."),
                      small);
    column.y += 8.0;
}

void drawNext (Column& column, const TuningSheet& sheet)
{
    if (! sheet.next)
        return;

    column.headed ("Next tuning: " + sheet.next->name);
    const auto way = [] (double turns)
    { return wording::nearTurn (turns) + (turns < 0.0 ? " (1/8 more, then 1/8 up again)" : ""); };

    for (const auto& move : sheet.next->moves)
        column.paragraph (nameOf (move.side) + ", every rod, " + noteOf (move.fromNote, sheet) + " to " + noteOf (move.toNote, sheet) +
                          ": " + way (move.turns) + ". Back: " + way (-move.turns) + ".");

    column.y += 8.0;
}

void drawNotes (Column& column, const TuningSheet& sheet)
{
    if (sheet.notes.empty())
        return;

    column.headed ("Notes");
    column.paragraph (sheet.notes);
}

/** Writes the cautions at the foot of the page; returns the lowest y for the parts above. */
double drawCautions (Canvas& canvas)
{
    constexpr double step = Canvas::leading * small;
    const double w = canvas.width() - 2.0 * margin;
    std::size_t lines = 0;

    for (const auto& caution : usualCautions())
        lines += canvas.wrapped (caution, w, small).size();

    Column foot{ canvas, canvas.height() - margin - step * static_cast<double> (lines - 1) - headingHeight, canvas.height() };
    const double top = foot.y - 1.5 * heading;
    foot.headed ("Cautions");

    for (const auto& caution : usualCautions())
        foot.paragraph (caution, small);

    return top;
}

} // namespace

void draw (Canvas& canvas, const TuningSheet& sheet)
{
    // The cautions come first, since they must fit; then the page from the top, keeping room for the notes.
    Column page{ canvas, margin, drawCautions (canvas) };
    const double forNotes = sheet.notes.empty() ? 0.0 : roomFor (2, body);

    drawTitle (page, sheet);
    drawDrum (page, sheet);
    drawTargets (page, sheet);
    drawLugs (page, sheet);
    drawRoomForNotes (page, sheet);

    auto upToNotes = page.without (forNotes);
    drawMeasured (upToNotes, sheet);
    page.y = upToNotes.y;

    drawNotes (page, sheet);
}

void drawWork (Canvas& canvas, const TuningSheet& sheet)
{
    Column page{ canvas, margin, drawCautions (canvas) };
    drawTitle (page, sheet);
    drawOrder (page, sheet);
    drawPlan (page, sheet);
    drawNext (page, sheet);
    drawCorrections (page, sheet);
}

} // namespace sheets
