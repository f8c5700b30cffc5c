#include "TuningSheet.h"

#include "LugMap.h"

#include "Files/HeadText.h"
#include "Modal/FitDrumPairs.h"
#include "Modal/InputError.h"
#include "Modal/Units.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace sheets
{

using namespace modal;

namespace
{

constexpr double margin = 40.0, body = 10.0, small = 8.5, heading = 12.0;

std::string number (double value, int decimals)
{
    char text[48];
    std::snprintf (text, sizeof (text), "%.*f", decimals, value);
    return text;
}

std::string noteOf (double hertz, const TuningSheet& sheet)
{
    return Note::fromFrequency (hertz, sheet.wanted.tuning.concertPitch).nameWithCents();
}

std::string centsText (double cents)
{
    return (cents >= 0.0 ? "+" : "") + number (cents, 0) + " c";
}

double headingLine (Canvas& canvas, double y, const std::string& words)
{
    canvas.text (margin, y, words, heading, Align::left, true);
    canvas.line (margin, y + 4.0, canvas.width() - margin, y + 4.0, 0.8);
    return y + 20.0;
}

double row (Canvas& canvas, double y, const std::vector<std::string>& cells, const std::vector<double>& columns,
            bool isBold = false)
{
    for (std::size_t i = 0; i < cells.size(); ++i)
        canvas.text (margin + columns[i], y, cells[i], body, i == 0 ? Align::left : Align::right, isBold || i == 0);

    return y + 15.0;
}

double drawDrum (Canvas& canvas, double y, const TuningSheet& sheet)
{
    const auto& drum = sheet.wanted.drum;
    const auto line = asText (drum.diameter / units::inch, 4) + " x " + asText (drum.depth / units::inch, 4) + " in, " +
                      std::to_string (drum.lugs) + " lugs, shell " + drum.shell.material + " " +
                      asText (drum.shell.thickness / units::millimetre, 3) + " mm";
    canvas.text (margin, y, line, body);
    y += 14.0;
    canvas.text (margin, y, "Batter head: " + files::headText (drum.batter), body);
    y += 14.0;

    if (drum.hasResonantHead())
    {
        canvas.text (margin, y, "Resonant head: " + files::headText (drum.resonant), body);
        y += 14.0;
    }

    return y + 8.0;
}

double drawTargets (Canvas& canvas, double y, const TuningSheet& sheet)
{
    const auto& p = sheet.wanted;
    y = headingLine (canvas, y, "Target");
    const std::vector<double> columns{ 0.0, 150.0, 220.0, 300.0, 385.0, 475.0 };
    y = row (canvas, y, { "Head", "tap note", "Hz", "tension N/m", "force a rod N", "film, of yield" }, columns, true);

    const auto add = [&] (const char* name, const HeadPrediction& head)
    {
        y = row (canvas, y,
                 { name, noteOf (head.tapNote, sheet), number (head.tapNote, 1), number (head.tension, 0),
                   number (head.forcePerLug, 0), number (100.0 * head.yieldShare, 0) + " %" },
                 columns);
    };

    add ("Batter", p.batter);

    if (p.drum.hasResonantHead())
        add ("Resonant", p.resonant);

    y += 4.0;

    if (p.drum.hasResonantHead())
    {
        canvas.text (margin, y, "Interval, resonant over batter: " + p.interval.longName(), body);
        y += 15.0;
    }

    canvas.text (margin, y,
                 "Predicted drum note: " + noteOf (p.drumNote, sheet) + "   " + number (p.drumNote, 1) + " Hz, rings " +
                     number (p.sustain, 2) + " s (to -60 dB, wires off)",
                 body, Align::left, true);
    y += 13.0;
    return canvas.paragraph (margin, y, canvas.width() - 2.0 * margin,
                             "Tap notes are heard 25 mm from the edge beside a lug, the other head held still, wires off. A4 = " +
                                 asText (p.tuning.concertPitch.a4, 5) + " Hz.",
                             small) +
           8.0;
}

double drawLugs (Canvas& canvas, double y, const TuningSheet& sheet)
{
    const auto& p = sheet.wanted;
    y = headingLine (canvas, y, "Lugs (small figures: order of the cross)");
    const double radius = 62.0;
    const bool hasResonant = p.drum.hasResonantHead();
    const double centre = 0.5 * canvas.width(), offset = hasResonant ? 0.25 * (canvas.width() - 2.0 * margin) : 0.0;

    const auto map = [&] (HeadSide side, double x)
    {
        const auto& cents = side == HeadSide::batter ? p.tuning.lugs.batter : p.tuning.lugs.resonant;
        LugMap drawnMap{ .lugs = p.drum.lugs, .order = crossOrder (p.drum.lugs) };
        drawnMap.words = side == HeadSide::batter ? std::vector<std::string>{ "Batter,", "from above" }
                                                  : std::vector<std::string>{ "Resonant,", "from below" };

        for (const auto& measured : sheet.measured)
            if (measured.side == side && ! measured.fit.lugCents.empty())
            {
                drawnMap.words.push_back ("as measured");

                for (const auto& lug : measured.fit.lugCents)
                    drawnMap.labels.push_back (centsText (lug.value) + ", " +
                                               number (measured.fit.tapNote.value * std::exp2 (lug.value / 1200.0), 1) + " Hz");
            }

        if (drawnMap.labels.empty())
            for (const double c : cents)
                drawnMap.labels.push_back (centsText (c));

        draw (canvas, drawnMap, x, y + radius + 14.0, radius);
    };

    map (HeadSide::batter, centre - offset);

    if (hasResonant)
        map (HeadSide::resonant, centre + offset);

    return y + 2.0 * radius + 62.0;
}

double drawMeasured (Canvas& canvas, double y, const TuningSheet& sheet)
{
    if (sheet.measured.empty())
        return y;

    y = headingLine (canvas, y, "Measured");

    for (const auto& measured : sheet.measured)
    {
        const auto& fit = measured.fit;
        const std::string name = measured.side == HeadSide::batter ? "Batter: " : "Resonant: ";

        if (! fit.isPossible)
        {
            y = canvas.paragraph (margin, y, canvas.width() - 2.0 * margin,
                                  name + (fit.doubts.empty() ? "not found" : fit.doubts.front()), body);
            continue;
        }

        canvas.text (margin, y,
                     name + noteOf (fit.tapNote.value, sheet) + ", " + number (fit.tapNote.value, 1) + " +/- " +
                         number (fit.tapNote.error, 1) + " Hz; tension " + number (fit.tension.value, 0) + " +/- " +
                         number (fit.tension.error, 0) + " N/m; " +
                         (fit.tapsUsed == 1 ? "one blow" : std::to_string (fit.tapsUsed) + " blows") +
                         (measured.date.empty() ? "" : "; " + measured.date),
                     body);
        y += 14.0;

        for (const auto& wave : fit.lugWaves)
            y = canvas.paragraph (margin, y, canvas.width() - 2.0 * margin, "Its lugs go " + inWords (wave), body);
    }

    return y + 6.0;
}

std::string turnText (double turns)
{
    return (turns >= 0.0 ? "+" : "") + number (turns, 2);
}

double drawPlan (Canvas& canvas, double y, const TuningSheet& sheet)
{
    if (! sheet.plan)
        return y;

    y = headingLine (canvas, y, "Plan: turns of each rod, + tightens");

    for (const auto& head : sheet.plan->heads)
    {
        const std::string name = head.side == HeadSide::batter ? "Batter" : "Resonant";

        if (head.passes.empty())
        {
            canvas.text (margin, y, name + ": nothing to turn", body);
            y += 14.0;
            continue;
        }

        int count = 0;

        for (const auto& pass : head.passes)
        {
            std::string line = name + " pass " + std::to_string (++count) + ": ";
            const auto [least, most] = std::minmax_element (pass.turns.begin(), pass.turns.end());

            if (*most - *least < 0.005)
            {
                line += "all rods " + turnText (*most);
            }
            else
            {
                for (const int lug : pass.order)
                    line += std::to_string (lug + 1) + ":" + turnText (pass.turns[static_cast<std::size_t> (lug)]) + "  ";
            }

            line += "; then about " + noteOf (pass.tapNote, sheet) + " +/- " + number (pass.tapNoteError, 0) + " c";
            y = canvas.paragraph (margin, y, canvas.width() - 2.0 * margin, line, small);
        }
    }

    return y + 6.0;
}

} // namespace

const std::vector<std::string>& usualCautions()
{
    static const std::vector<std::string> list{
        "The limits of the makers of head, hoop and drum come before every figure here.",
        "A drum played close by harms hearing: wear protection.",
        "An over-tensioned head can split and a rod can fail: turn in small steps, keep your face away, never force a rod.",
        "Edges of hoops, films and wires are sharp.",
    };
    return list;
}

void draw (Canvas& canvas, const TuningSheet& sheet)
{
    double y = margin + 18.0;
    canvas.text (margin, y, sheet.title, 18.0, Align::left, true);
    canvas.text (canvas.width() - margin, y, sheet.date, body, Align::right);
    y = drawDrum (canvas, y + 22.0, sheet);
    y = drawTargets (canvas, y, sheet);
    y = drawLugs (canvas, y, sheet);
    y = drawMeasured (canvas, y, sheet);
    y = drawPlan (canvas, y, sheet);

    if (! sheet.notes.empty())
    {
        y = headingLine (canvas, y, "Notes");
        y = canvas.paragraph (margin, y, canvas.width() - 2.0 * margin, sheet.notes, body) + 6.0;
    }

    // Cautions stand at the foot of the page.
    double foot = canvas.height() - margin - 13.0 * static_cast<double> (usualCautions().size());
    foot = headingLine (canvas, std::max (y, foot - 14.0), "Cautions");

    for (const auto& caution : usualCautions())
        foot = canvas.paragraph (margin, foot, canvas.width() - 2.0 * margin, caution, small);
}

} // namespace sheets
