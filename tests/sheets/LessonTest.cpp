// Lessons and exercises: what is played, asked and written.

#include "tests/Catch.h"
#include "tests/Contains.h"

#include "Files/LessonFile.h"
#include "Modal/InputError.h"
#include "Modal/Units.h"
#include "Score/Loudness.h"
#include "Sheets/Exercise.h"
#include "Sheets/LessonPage.h"

#include <algorithm>
#include <cmath>
#include <map>

using namespace modal;

namespace
{

/** A lesson on one drum with the tunings and further members of its steps. */
files::LessonFile lessonOf (const std::vector<std::string>& steps)
{
    std::string text = R"({ "format": "snarewright-lesson", "version": 1, "name": "Test <1>", "notes": "For the teacher.",
        "drum": "maple-14x5", "strokes": "o6..o3..", "tuning": { "batter": { "tap_note": "G3" }, "interval": "P4" }, "steps": [)";

    for (std::size_t i = 0; i < steps.size(); ++i)
        text += (i > 0 ? ", " : "") + std::string ("{ \"name\": \"Step ") + std::to_string (i + 1) + "\"" + steps[i] + " }";

    return files::readLesson (text + "] }", "test.json");
}

/** Steps as predicted, without sound: all that questions need. */
std::vector<sheets::PlayedStep> predicted (const files::LessonFile& lesson)
{
    std::vector<sheets::PlayedStep> steps;

    for (const auto& step : lesson.steps)
    {
        sheets::PlayedStep next;
        next.step = step;
        next.prediction = predict (step.drum.drum, step.tuning);
        steps.push_back (std::move (next));
    }

    return steps;
}

std::string tuned (const std::string& batter, const std::string& resonant)
{
    return R"(, "tuning": { "batter": { "tap_note": ")" + batter + R"(" }, "resonant": { "tap_note": ")" + resonant + "\" } }";
}

} // namespace

TEST_CASE ("The ready lessons read, and one of them tunes one head at a time", "[lesson]")
{
    REQUIRE (files::lessonPresets().size() >= 3);

    for (const auto& name : files::lessonPresets())
        CHECK (files::openLesson (name).steps.size() >= 3);

    const auto steps = predicted (files::openLesson ("one-head-at-a-time"));

    for (std::size_t i = 1; i < steps.size(); ++i)
    {
        CAPTURE (i);
        const auto hasMoved = [&] (HeadPrediction Prediction::*head)
        { return std::abs (centsBetween ((steps[i - 1].prediction.*head).tapNote, (steps[i].prediction.*head).tapNote)) > 1.0; };
        CHECK (hasMoved (&Prediction::batter) != hasMoved (&Prediction::resonant));
    }
}

TEST_CASE ("A lesson plays equally loud, and its pages need no network", "[lesson]")
{
    const auto played = sheets::playLesson (lessonOf ({ "", tuned ("G3", "D4") + ", \"notes\": \"Ask first.\"" }), {});

    for (const auto& step : played.steps)
    {
        CHECK (score::loudness (step.sound, sheets::lessonRate) == Approx (played.loudness).margin (0.1));
        CHECK (*std::max_element (step.sound.begin(), step.sound.end()) < 0.9f);
    }

    // The batter head was held; from C4 to D4 is a tone.
    CHECK (contains (played.steps[1].changes[0], "held"));
    CHECK (contains (played.steps[1].changes[1], "Resonant head +2.0 semitones"));

    std::map<std::string, std::string> pages;
    sheets::writePages (played, {}, [&] (const std::string& name, std::string_view bytes) { pages[name] = bytes; });

    for (const char* name : { "index.html", "exercise.html", "page.css", "sounds.js", "lesson.js", "exercise.js",
                              "step-01-notes.svg", "step-02-ring.svg", "step-02-spectrum.svg" })
    {
        CAPTURE (name);
        CHECK (pages[name].size() > 100);
        CHECK ((pages[name].find ("http://") == std::string::npos || contains (name, ".svg")));
        CHECK_FALSE (contains (pages[name], "https://"));
    }

    const auto &lesson = pages["index.html"], &exercise = pages["exercise.html"];
    CHECK (contains (lesson, "Test &lt;1&gt;"));
    CHECK (contains (lesson, "step-02.wav"));
    CHECK (contains (lesson, "teacher's notes</h2>"));
    CHECK (contains (lesson, "Ask first."));
    CHECK (contains (exercise, "Test \\u003c1>"));

    for (const auto& page : { lesson, exercise })
    {
        CHECK (contains (page, "default-src 'none'"));
        CHECK (contains (page, "Start at low volume"));
        CHECK (contains (page, "wear ear protection"));
        CHECK_FALSE (contains (page, "style=\"")); // the policy forbids it, and scripts in attributes
        CHECK_FALSE (contains (page, "onclick"));
    }

    // The exercise hides figures and shows no picture.
    CHECK_FALSE (contains (exercise, ".svg"));
    CHECK_FALSE (contains (exercise, " Hz"));
}

TEST_CASE ("The browser's page takes a lesson: drums that read back as the steps, and one loudness", "[lesson]")
{
    const std::string browser = "<p>page</p><script type=\"application/json\" id=\"lesson\"></script><script>start()</script>";
    const auto played = sheets::playLesson (
        lessonOf ({ ", \"listen_for\": \"</script>\"", tuned ("G3", "D4") + R"(, "wires": { "strainer": "off" })" }), {});
    std::map<std::string, std::string> pages;
    sheets::writePages (played, browser, [&] (const std::string& name, std::string_view bytes) { pages[name] = bytes; });

    // The page as before around one JSON text, which does not end its element early.
    const auto& page = pages["index.html"];
    const auto begin = page.find ("\"lesson\">") + 9, end = page.find ("</script>");
    CHECK (page.substr (0, begin) + page.substr (end) == browser);
    const auto json = files::Json::parse (page.substr (begin, end - begin));
    CHECK (json.at ("steps").at (0).at ("listen_for") == "</script>");
    CHECK (contains (pages["recordings.html"], "step-02.wav"));

    for (std::size_t i = 0; i < played.steps.size(); ++i)
    {
        const auto& step = played.steps[i].step;
        const auto drum = files::readDrum (json.at ("steps").at (i).at ("document").dump(), "step");
        const auto again = predict (drum.drum, drum.tunings.at (0));
        CHECK (again.drumNote == Approx (played.steps[i].prediction.drumNote).epsilon (1e-9));
        CHECK (drum.wires.on == step.drum.wires.on);
        // As loud as the softest step, by the mix that the browser plays.
        CHECK (played.steps[i].mixLoudness + json.at ("steps").at (i).at ("gain_db").get<double>() ==
               Approx (std::min (played.steps[0].mixLoudness, played.steps[1].mixLoudness)));
    }

    CHECK_THROWS_WITH (sheets::livePage (played, "<p>no page of ours</p>"),
                       "the browser's page has no place for a lesson; needed: one that Source/Web/build made");
}

TEST_CASE ("A step changes wires, muffling, strokes and drum, and the page says so", "[lesson]")
{
    const auto steps = predicted (lessonOf ({ "", R"(, "wires": { "strainer": "off" })",
                                              R"(, "muffling": [ { "size_mm": 30, "distance_mm": 120, "mass_g": 3 } ])",
                                              R"(, "drum": "birch-14x5.5", "strokes": "c4..")" }));
    const auto changes = [&] (std::size_t step)
    {
        std::string text;

        for (const auto& change : sheets::changesBetween (steps[step - 1], steps[step]))
            text += change + " ";

        return text;
    };
    CHECK (contains (changes (1), "Wires off."));
    CHECK (contains (changes (2), "Wires on: 20 strands"));
    CHECK (contains (changes (2), "Muffling: 3 g patch on the batter head, 120 mm from the centre."));
    CHECK (contains (changes (3), "Drum: Birch"));
    CHECK (contains (changes (3), "No muffling."));
    CHECK (contains (changes (3), "Other strokes."));
}

TEST_CASE ("A step is played with its own wires and strokes", "[lesson]")
{
    const auto played = sheets::playLesson (lessonOf ({ "", R"(, "wires": { "strainer": "off" }, "strokes": "c4..")" }), {});

    // Without wires less is heard high up; the strokes of the second step take half the time.
    const auto highBand = [&] (std::size_t step)
    {
        const auto& spectrum = played.steps[step].curves.spectrum;
        return *std::max_element (spectrum.end() - 12, spectrum.end()); // the octave from 4 kHz
    };
    CHECK (highBand (1) < highBand (0) - 3.0);
    CHECK (played.steps[1].sound.size() < played.steps[0].sound.size());
}

TEST_CASE ("Questions have the answers that a musician would give", "[lesson]")
{
    // Interval names and their semitones are those of any book of music theory: G-B a major third, 4; G-C a perfect fourth, 5;
    // G-D and F-C a perfect fifth, 7.
    const auto steps =
        predicted (lessonOf ({ "", tuned ("G3", "D4"), tuned ("F3", "C4"), R"(, "wires": { "strainer": "off" })" }));
    const auto questions = sheets::questionsAbout (steps);
    REQUIRE (questions.size() == 4);
    const auto answer = [&] (std::size_t question, std::size_t from, std::size_t to) -> std::string
    {
        const int right = questions[question].right[from * steps.size() + to];
        return right < 0 ? "" : questions[question].answers[static_cast<std::size_t> (right)];
    };

    CHECK (answer (0, 0, 1) == "resonant");
    CHECK (answer (0, 0, 2) == "batter");
    CHECK (answer (0, 1, 2) == "both");
    CHECK (answer (0, 0, 3) == "neither");

    CHECK (answer (1, 0, 1) == "up");
    CHECK (answer (1, 1, 0) == "down");
    CHECK (answer (1, 0, 3) == "it stayed");

    CHECK (questions[2].text == "What is the interval between the heads?");
    CHECK (questions[2].isAboutOneSound);
    CHECK (answer (2, 1, 0) == "perfect fourth");
    CHECK (answer (2, 0, 1) == "perfect fifth");
    CHECK (answer (2, 0, 2) == "perfect fifth");

    CHECK (answer (3, 0, 3) == "the wires");
    CHECK (answer (3, 0, 1) == "nothing else");
}

TEST_CASE ("What cannot be judged is not asked", "[lesson]")
{
    // 20 cents are too few to ask for; one step, or two alike, leave nothing to ask.
    const auto close = predicted (lessonOf ({ "", tuned ("G3", "C4 +20"), tuned ("G3", "D4") }));

    for (const auto& question : sheets::questionsAbout (close))
        if (! question.isAboutOneSound)
            CHECK (question.right[1] == -1);

    CHECK (sheets::questionsAbout (predicted (lessonOf ({ "" }))).empty());
    CHECK (sheets::questionsAbout (predicted (lessonOf ({ "", "" }))).empty());
}

TEST_CASE ("The curves of a decaying sine have its decay and its frequency", "[lesson]")
{
    // exp(-at) falls by 60 dB in ln(1000)/a.
    constexpr double rate = 48000.0, frequency = 440.0, fall = 0.5;
    std::vector<float> sound (static_cast<std::size_t> (1.2 * rate));

    for (std::size_t i = 0; i < sound.size(); ++i)
    {
        const double t = static_cast<double> (i) / rate;
        sound[i] = static_cast<float> (std::exp (-std::log (1000.0) / fall * t) * std::sin (units::twoPi * frequency * t));
    }

    const auto curves = sheets::curvesOf (sound, rate);
    CHECK (curves.timeTo (-60.0) == Approx (fall).margin (0.02));
    CHECK (curves.timeTo (-20.0) == Approx (fall / 3.0).margin (0.02));

    const auto loudest = std::max_element (curves.spectrum.begin(), curves.spectrum.end()) - curves.spectrum.begin();
    const double halfBand = std::exp2 (0.5 / sheets::StrokeCurves::bandsPerOctave);
    CHECK (sheets::StrokeCurves::frequencyOf (static_cast<int> (loudest)) <= frequency * halfBand);
    CHECK (sheets::StrokeCurves::frequencyOf (static_cast<int> (loudest)) >= frequency / halfBand);
    CHECK_THROWS (sheets::curvesOf (std::vector<float> (1000), rate));
}

TEST_CASE ("Strokes that cannot be read and tunings that cannot be played name the step", "[lesson]")
{
    const auto fieldOf = [] (const std::string& step)
    {
        try
        {
            sheets::playLesson (lessonOf ({ "", step }), {});
        }
        catch (const InputError& e)
        {
            return e.field();
        }

        return std::string();
    };
    CHECK (fieldOf (R"(, "strokes": "o6?")").starts_with ("test.json, step 2: strokes"));
    CHECK (fieldOf (tuned ("C6", "C6")).starts_with ("test.json, step 2: "));
}
