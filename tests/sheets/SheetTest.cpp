#include "TestSheet.h"

#include "tests/Catch.h"
#include "tests/Contains.h"

#include "Modal/InputError.h"
#include "Modal/Units.h"
#include "Score/Loudness.h"
#include "Sheets/Atlas.h"
#include "Sheets/AtlasMap.h"

#include <algorithm>
#include <cmath>

using namespace fitting;
using namespace modal;

TEST_CASE ("The sheet is complete in every format")
{
    auto sheet = testsheet::sheet (8, { 207.65, 277.18 });
    sheet.title = "Pit drum, Friday";
    sheet.date = "2024-05-17";
    sheet.notes = "Quotes \" and, commas";
    PlanRequest request;
    request.drum = sheet.wanted.drum;
    request.batter = request.resonant = HeadAsIs{ 1500.0, {} };
    request.wanted = sheet.wanted.tuning;
    sheet.plan = makePlan (request);

    const auto json = files::written (reports::asJson (sheet));
    for (const char* key :
         { "\"title\"", "\"date\"", "\"drum\"", "\"tuning\"", "\"target\"", "\"plan\"", "\"passes\"", "\"cautions\"" })
        CHECK (contains (json, key));

    const auto csv = reports::asCsv (sheet);
    CHECK (std::count (csv.begin(), csv.end(), '\n') == 2);
    CHECK (contains (csv, "\"Quotes \"\" and, commas\""));
    CHECK (contains (csv, "\"Pit drum, Friday\""));

    const auto drawn = [&] (sheets::Format format)
    {
        return sheets::drawn (format, sheets::pageWidthA4, sheets::pageHeightA4,
                              [&] (sheets::Canvas& canvas) { sheets::draw (canvas, sheet); });
    };
    const auto pdf = drawn (sheets::Format::pdf), svg = drawn (sheets::Format::svg), png = drawn (sheets::Format::png);
    CHECK (pdf.starts_with ("%PDF-"));
    CHECK (contains (svg, "<svg"));
    CHECK (png.starts_with ("\x89PNG"));
    CHECK_THROWS_AS (sheets::formatOf ("sheet.doc", "--output"), InputError);
}

TEST_CASE ("A measurement goes through its file onto the sheet")
{
    auto head = testsheet::measuredHead (HeadSide::batter);
    head.fit.massRatio = { 1.01, 0.02 };
    head.fit.tapsUsed = 4;

    for (const double cents : { 3.0, -8.0, 0.0, 5.0 })
        head.fit.lugCents.push_back ({ cents, 2.0 });

    head.fit.lugWaves.push_back ({ 4, { 7.5, 1.5 } });

    const auto read = reports::readFit (files::written (reports::fitJson (head)), "lug-check.json");
    REQUIRE (read.size() == 1);
    CHECK (read[0].side == HeadSide::batter);
    CHECK (read[0].date == head.date);
    CHECK (read[0].fit.tension.value == head.fit.tension.value);
    CHECK (read[0].fit.tension.error == head.fit.tension.error);
    CHECK (read[0].fit.massRatio.value == head.fit.massRatio.value);
    REQUIRE (read[0].fit.lugCents.size() == 4);
    CHECK (read[0].fit.lugCents[1].value == -8.0);
    REQUIRE (read[0].fit.lugWaves.size() == 1);
    CHECK (read[0].fit.lugWaves[0].waves == 4);
    CHECK (read[0].fit.lugWaves[0].cents.value == 7.5);
    CHECK (read[0].fit.lugWaves[0].cents.error == 1.5);

    DrumFit both{ .isPossible = true, .batter = head.fit, .resonant = head.fit };
    both.resonant.tapNote.value = 271.0;
    const auto heads = reports::readFit (files::written (reports::fitJson (both, "")), "strikes.json");
    REQUIRE (heads.size() == 2);
    CHECK (heads[1].side == HeadSide::resonant);
    CHECK (heads[1].fit.tapNote.value == 271.0);

    for (const char* broken : { "{}", "{ \"head\": \"centre\" }", "{ \"heads\": 3 }", "[]",
                                "{ \"head\": \"batter\", \"is_possible\": true, \"doubts\": [], \"taps_used\": 4, "
                                "\"tap_note_hz\": { \"value\": -3, \"error\": 0 } }" })
        CHECK_THROWS_AS (reports::readFit (broken, "broken.json"), InputError);

    auto sheet = testsheet::sheet (4, { 207.65, 277.18 });
    const auto cells = [] (const std::string& csv) { return std::count (csv.begin(), csv.end(), ','); };
    const auto without = reports::asCsv (sheet);
    sheet.measured = read;
    const auto with = reports::asCsv (sheet);
    CHECK (contains (with, "203.4,1987,31"));
    CHECK (cells (with) == cells (without));
    CHECK (contains (files::written (reports::asJson (sheet)), "1987"));
}

TEST_CASE ("The columns of an atlas are at the notes in their names")
{
    // D3 to D4 by ISO 16: 19 and 7 semitones below A4 = 440 Hz, two columns to a semitone.
    sheets::AtlasRequest request;
    request.intervals = 1;
    const auto atlas = sheets::makeAtlas (request, {}, false);
    REQUIRE (atlas.notes.size() == 25);

    for (std::size_t i = 0; i < 25; ++i)
        CHECK (atlas.notes[i] == Approx (440.0 * std::exp2 ((0.5 * static_cast<double> (i) - 19.0) / 12.0)).epsilon (1.0e-9));
}

TEST_CASE ("An atlas is the same on one thread and on several, and stops when cancelled")
{
    sheets::AtlasRequest request;
    request.notes = 5;
    request.intervals = 4;
    request.threads = 1;
    std::atomic<bool> cancel{ false };
    const auto one = sheets::makeAtlas (request, {}, cancel);
    request.threads = 3;
    double last = -1.0;
    bool isRising = true;
    const auto three = sheets::makeAtlas (
        request,
        [&] (double share)
        {
            isRising = isRising && share >= last;
            last = share;
        },
        cancel);
    CHECK (isRising);
    REQUIRE (one.isComplete);
    CHECK (last == 1.0);
    REQUIRE (one.points.size() == 20);

    for (std::size_t i = 0; i < 20; ++i)
    {
        CHECK (one.points[i].drumNote == three.points[i].drumNote);
        CHECK (one.points[i].isPossible == three.points[i].isPossible);
    }

    // The same as predict() says.
    Tuning tuning;
    const auto& point = one.at (2, 1);
    tuning.target = ByTapNotes{ point.batterNote, point.batterNote * Interval{ point.interval }.ratio() };
    CHECK (point.drumNote == Approx (predict (request.drum, tuning).drumNote).epsilon (1.0e-3));

    // Where no tuning is possible there is no atlas.
    request.lowestNote = 880.0;
    request.highestNote = 1760.0;
    CHECK_THROWS_AS (sheets::makeAtlas (request, {}, cancel), InputError);

    cancel = true;
    CHECK_FALSE (sheets::makeAtlas (request, {}, cancel).isComplete);
    cancel = false;
    request.drum.bottom = Bottom::closed;
    CHECK_THROWS_AS (sheets::makeAtlas (request, {}, cancel), InputError);
}
