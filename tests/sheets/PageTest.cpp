// The layout of the sheet, checked by the ink of its picture.

#include "TestSheet.h"

#include "tests/Catch.h"

#include "Modal/Units.h"
#include "Sheets/LugMap.h"
#include "Sheets/PlanWords.h"

#include <cairo.h>

#include <algorithm>
#include <cmath>
#include <cstring>
#include <functional>

using namespace fitting;
using namespace modal;

namespace
{

constexpr double pixelsPerPoint = 2.0; // of a PNG by sheets::drawn()

/** A page as ink: 0 where it is white, up to 255. */
struct Ink
{
    int width = 0, height = 0; ///< pixels
    std::vector<int> darkness{};

    /** All of it in a part of the page, points. */
    std::vector<int> in (double left, double top, double right, double bottom) const
    {
        std::vector<int> part;
        const auto pixel = [] (double points, int most)
        { return std::clamp (static_cast<int> (std::lround (points * pixelsPerPoint)), 0, most); };

        for (int y = pixel (top, height); y < pixel (bottom, height); ++y)
            for (int x = pixel (left, width); x < pixel (right, width); ++x)
                part.push_back (darkness[static_cast<std::size_t> (y * width + x)]);

        return part;
    }

    bool isBlank (double left, double top, double right, double bottom) const
    {
        const auto part = in (left, top, right, bottom);
        return std::all_of (part.begin(), part.end(), [] (int d) { return d == 0; });
    }
};

Ink inkOf (double width, double height, const std::function<void (sheets::Canvas&)>& draw)
{
    struct Stream
    {
        std::string bytes;
        std::size_t at = 0;
    };
    Stream stream{ sheets::drawn (sheets::Format::png, width, height, draw) };
    const auto read = [] (void* from, unsigned char* to, unsigned int count) -> cairo_status_t
    {
        auto& source = *static_cast<Stream*> (from);
        std::memcpy (to, source.bytes.data() + source.at, count);
        source.at += count;
        return CAIRO_STATUS_SUCCESS;
    };

    auto* surface = cairo_image_surface_create_from_png_stream (read, &stream);
    REQUIRE (cairo_surface_status (surface) == CAIRO_STATUS_SUCCESS);
    Ink ink{ cairo_image_surface_get_width (surface), cairo_image_surface_get_height (surface) };
    const auto* rows = cairo_image_surface_get_data (surface);

    for (int y = 0; y < ink.height; ++y)
        for (int x = 0; x < ink.width; ++x)
            ink.darkness.push_back (255 - rows[y * cairo_image_surface_get_stride (surface) + 4 * x]);

    cairo_surface_destroy (surface);
    return ink;
}

Ink inkOfWork (const reports::TuningSheet& sheet)
{
    return inkOf (sheets::pageWidthA4, sheets::pageHeightA4, [&] (sheets::Canvas& canvas) { sheets::drawWork (canvas, sheet); });
}

Ink inkOf (const reports::TuningSheet& sheet)
{
    return inkOf (sheets::pageWidthA4, sheets::pageHeightA4, [&] (sheets::Canvas& canvas) { sheets::draw (canvas, sheet); });
}

reports::TuningSheet plainSheet()
{
    auto sheet = testsheet::sheet (16, { 174.61, 233.08 });
    sheet.title = "Plain";
    return sheet;
}

Plan farPlan (const reports::TuningSheet& sheet)
{
    PlanRequest request;
    request.drum = sheet.wanted.drum;
    request.wanted = sheet.wanted.tuning;
    request.batter = HeadAsIs{ tensionForTapNote (request.drum, HeadSide::batter, 440.0), {} };
    request.resonant = HeadAsIs{ tensionForTapNote (request.drum, HeadSide::resonant, 349.23), {} };
    request.largestStep = 0.25;
    return makePlan (request);
}

reports::MeasuredHead measuredHead (HeadSide side)
{
    auto head = testsheet::measuredHead (side);
    head.fit.tapsUsed = 16;

    for (int lug = 0; lug < 16; ++lug)
        head.fit.lugCents.push_back ({ 25.0 - lug, 2.0 });

    for (int i = 0; i < 6; ++i)
        head.fit.findings.push_back ({ Finding::Kind::lugsNotLocated }); // two lines

    return head;
}

/** Six different passes: each rod its own turn. */
HeadPlan unevenPlan (HeadSide side)
{
    HeadPlan plan;
    plan.side = side;
    plan.fromNote = 174.61;
    plan.toNote = 207.65;

    for (int pass = 0; pass < 6; ++pass)
    {
        Pass next{ .order = tighteningOrder (16), .turns = {}, .tension = 1500.0, .tapNote = 180.0 + pass, .tapNoteError = 8.0 };

        for (int lug = 0; lug < 16; ++lug)
            next.turns.push_back (0.01 * (lug + pass));

        plan.passes.push_back (next);
    }

    return plan;
}

constexpr double foot = 105.0, edge = 30.0; // points: the cautions with their heading, and the margin

} // namespace

TEST_CASE ("The cautions are complete at the foot of the page, and nothing runs off it, however full it is")
{
    auto plain = plainSheet();
    const double width = sheets::pageWidthA4, height = sheets::pageHeightA4;
    const auto cautions = inkOf (plain).in (0.0, height - foot, width, height);
    REQUIRE (std::count_if (cautions.begin(), cautions.end(), [] (int d) { return d > 128; }) > 1000);

    for (const auto side : { HeadSide::batter, HeadSide::resonant })
        plain.corrections.push_back ({ side, false, usualCorrections (plain.wanted.drum, side, 2000.0, {}, {}) });

    plain.next = reports::NextTuning{ "Next", { { HeadSide::batter, 174.61, 196.0, 0.2 }, { HeadSide::resonant, 233.08, 220.0, -0.2 } } };
    auto longNotes = plain, longWord = plain, longTitle = plain, farFrom = plain, uneven = plain, full = plain;
    std::string words;

    for (int i = 0; i < 800; ++i)
        words += "words ";

    longNotes.notes = words;
    longWord.notes = std::string (3000, 'x');
    longTitle.title = std::string (300, 'M') + words;
    farFrom.plan = farPlan (plain);
    uneven.plan = Plan{ { unevenPlan (HeadSide::batter), unevenPlan (HeadSide::resonant) } };
    full.title = longTitle.title;
    full.date = "2024-05-17";
    full.notes = words;
    full.lugOne = words;
    full.plan = uneven.plan;
    full.measured = { measuredHead (HeadSide::batter), measuredHead (HeadSide::resonant) };

    for (const auto& sheet : { longNotes, longWord, longTitle, farFrom, uneven, full })
    {
        CAPTURE (sheet.title.size(), sheet.notes.size(), sheet.plan.has_value());

        for (const auto& ink : { inkOf (sheet), inkOfWork (sheet) })
        {
            CHECK ((ink.in (0.0, height - foot, width, height) == cautions));
            CHECK (ink.isBlank (0.0, 0.0, edge, height));
            CHECK (ink.isBlank (width - edge, 0.0, width, height));
            CHECK (ink.isBlank (0.0, 0.0, width, edge));
        }
    }
}

TEST_CASE ("Long text is wrapped, inside a word if necessary, and loses nothing")
{
    sheets::drawn (sheets::Format::svg, 200.0, 200.0,
                   [] (sheets::Canvas& canvas)
                   {
                       std::string word;

                       for (int i = 0; i < 100; ++i)
                           word += "é";

                       const auto lines = canvas.wrapped ("before " + word + " after", 80.0, 10.0);
                       std::string joined;

                       for (const auto& line : lines)
                       {
                           CHECK (canvas.widthOf (line, 10.0) <= 80.0);
                           joined += line;
                       }

                       CHECK (lines.size() > 5);
                       std::erase (joined, ' ');
                       CHECK (joined == "before" + word + "after");
                       CHECK (canvas.wrapped ("one\ntwo", 80.0, 10.0) == std::vector<std::string>{ "one", "two" });
                       CHECK (canvas.wrapped ("", 80.0, 10.0).empty());
                   });
}

TEST_CASE ("Equal passes of a plan share a line; a pass that is uncertain by more than a semitone has no note")
{
    const auto sheet = plainSheet();

    for (const auto& head : farPlan (sheet).heads)
    {
        REQUIRE (head.passes.size() > 5);
        const auto lines = sheets::planLines (head, {});
        REQUIRE (lines.size() >= 2);
        CHECK (lines.size() < head.passes.size());
        CHECK (lines[0].find (head.side == HeadSide::batter ? "tap note now A4" : "tap note now F4") != std::string::npos);
        CHECK (lines[1].find (": all rods ") != std::string::npos);
        CHECK (lines[1].find (" test turn: ") != std::string::npos);
        CHECK (lines.back().find ("; tap after each pass, stop at ") != std::string::npos);
        CHECK (lines.back().find ("; then ") == std::string::npos);
    }

    HeadPlan certain;
    certain.fromNote = 174.61;
    certain.toNote = 207.65;
    Pass pass{
        .order = { 0, 2, 1, 3 }, .turns = { 0.25, 0.25, 0.25, 0.25 }, .tension = 0.0, .tapNote = 196.0, .tapNoteError = 20.0
    };
    certain.passes = { pass, pass, pass };
    certain.passes[2].turns[1] = 0.125;
    certain.passes[2].tapNote = 207.65;
    const auto lines = sheets::planLines (certain, {});
    REQUIRE (lines.size() == 3);
    CHECK (lines[0] == "Batter: tap note now F3 (174.6 Hz), target G#3 (207.7 Hz)");
    CHECK (lines[1] == "Batter passes 1-2: all rods 1/4 up each; then G3 ± 20 cents");
    CHECK (lines[2] == "Batter pass 3: 1: 1/4 up, 3: 1/4 up, 2: 1/8 up, 4: 1/4 up; then G#3 ± 20 cents");
}

TEST_CASE ("Lugs count clockwise seen from above, counterclockwise seen from below")
{
    const auto inkWithLabel = [] (bool isFromBelow, bool isUncertain)
    {
        return inkOf (300.0, 300.0,
                      [&] (sheets::Canvas& canvas)
                      {
                          sheets::LugMap map{ .lugs = 8, .isFromBelow = isFromBelow };
                          map.labels.resize (8);
                          map.labels[1] = { { "+20 c" }, isUncertain };
                          draw (canvas, map, 150.0, 150.0, 60.0);
                      });
    };

    // Lug 2 of 8 is an eighth of a turn from the top, clockwise seen from above; its label is outside the circle.
    const auto above = inkWithLabel (false, false), below = inkWithLabel (true, false), vague = inkWithLabel (false, true);
    CHECK_FALSE (above.isBlank (205.0, 60.0, 300.0, 125.0));
    CHECK (above.isBlank (225.0, 175.0, 300.0, 300.0));
    CHECK_FALSE (below.isBlank (0.0, 60.0, 95.0, 125.0));
    CHECK (below.isBlank (225.0, 0.0, 300.0, 125.0));

    const auto darkest = [] (const Ink& ink)
    {
        const auto label = ink.in (212.0, 60.0, 300.0, 125.0);
        return *std::max_element (label.begin(), label.end());
    };
    CHECK (darkest (vague) < darkest (above));
}
