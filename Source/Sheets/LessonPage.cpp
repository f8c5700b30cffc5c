#include "LessonPage.h"

#include "WebPage.h"

#include "Modal/NumberText.h"

namespace sheets
{

using namespace modal;

namespace
{

std::string stepName (std::size_t step, const std::string& ending)
{
    char text[16];
    std::snprintf (text, sizeof (text), "step-%02d", static_cast<int> (step + 1));
    return text + ending;
}

/** A figure in large type with its unit or frequency below it. */
std::string figure (const std::string& name, const std::string& value, const std::string& more)
{
    return "<div><dt>" + name + "</dt><dd>" + escaped (value) + "<small>" + escaped (more) + "</small></dd></div>\n";
}

std::string figuresOf (const PlayedStep& played)
{
    const auto& p = played.prediction;
    const auto note = [&] (double hertz) { return Note::fromFrequency (hertz, p.tuning.concertPitch).nameWithCents(); };
    const auto head = [&] (const char* name, const HeadPrediction& h)
    {
        return figure (name, note (h.tapNote),
                       fixedText (h.tapNote, 1) + " Hz, " + fixedText (h.tension, 0) + " N/m, " +
                           fixedText (100.0 * h.yieldShare, 0) + " % of yield strength");
    };

    auto text = "<dl class=\"figures\">\n" + head ("Batter", p.batter);

    if (p.drum.hasResonantHead())
        text += head ("Resonant", p.resonant) +
                figure ("Interval", p.interval.longName(), fixedText (p.interval.semitones, 1) + " semitones");

    return text +
           figure ("Drum note", note (p.drumNote),
                   fixedText (p.drumNote, 1) + " Hz, ring " + fixedText (p.sustain, 2) + " s to -60 dB, wires off" +
                       (played.ringWiresOn ? "; " + fixedText (*played.ringWiresOn, 2) + " s, wires on" : "")) +
           "</dl>\n";
}

std::string picturesOf (const PlayedStep& played, std::size_t index)
{
    std::string text = "<div class=\"pictures\">\n";

    for (const auto& picture : stepPictures())
        text += "<figure><img src=\"" + LessonFileName::picture (index, picture) + "\" alt=\"" + picture.kind +
                "\" width=\"320\" height=\"270\"><figcaption><strong>" + picture.title + ".</strong> " +
                escaped (picture.describe (played)) + "</figcaption></figure>\n";

    return text + "</div>\n";
}

std::string notesOnScreen (const std::string& notes)
{
    return notes.empty() ? "" : "<details><summary>Teacher's notes</summary><p>" + escaped (notes) + "</p></details>\n";
}

std::string sectionOf (const PlayedStep& played, std::size_t index)
{
    const auto id = std::to_string (index + 1);
    std::string text = "<section class=\"step\" id=\"step-" + id + "\" aria-labelledby=\"title-" + id + "\">\n<h2 id=\"title-" +
                       id + "\" tabindex=\"-1\">" + id + ". " + escaped (played.step.name) + "</h2>\n";

    if (! played.step.listenFor.empty())
        text += "<p class=\"listen\"><strong>Listen for:</strong> " + escaped (played.step.listenFor) + "</p>\n";

    text += "<audio controls preload=\"auto\" src=\"" + LessonFileName::sound (index) + "\" aria-label=\"Sound of step " + id +
            "\"></audio>\n" + figuresOf (played) + "<p>";

    for (const auto& change : played.changes)
        text += escaped (change) + " ";

    return text + "</p>\n" + picturesOf (played, index) + notesOnScreen (played.step.notes) + "</section>\n";
}

/** On paper only. */
std::string notesOnPaper (const files::LessonFile& lesson)
{
    std::string notes;

    for (std::size_t i = 0; i < lesson.steps.size(); ++i)
        if (! lesson.steps[i].notes.empty())
            notes += "<h3>" + std::to_string (i + 1) + ". " + escaped (lesson.steps[i].name) + "</h3>\n<p>" +
                     escaped (lesson.steps[i].notes) + "</p>\n";

    if (! lesson.notes.empty())
        notes = "<p>" + escaped (lesson.notes) + "</p>\n" + notes;

    return notes.empty() ? ""
                         : "<section class=\"paper own-page\">\n<h2>" + escaped (lesson.name) + ": teacher's notes</h2>\n" +
                               notes + "</section>\n";
}

std::string stepChoice (const char* id, const char* label, std::size_t steps)
{
    std::string text = std::string ("<select id=\"") + id + "\" aria-label=\"" + label + "\">";

    for (std::size_t i = 0; i < steps; ++i)
        text += "<option value=\"" + std::to_string (i) + "\">step " + std::to_string (i + 1) + "</option>";

    return text + "</select>\n";
}

std::string controls (std::size_t steps)
{
    return R"(<nav aria-label="Steps">
<div class="bar">
<button type="button" id="back" aria-keyshortcuts="ArrowLeft">&#8592; Back</button>
<button type="button" id="play" class="main" aria-keyshortcuts="P">Play <kbd>P</kbd></button>
<button type="button" id="next" aria-keyshortcuts="ArrowRight">Next &#8594;</button>
<span id="status" role="status">)" +
           std::to_string (steps) + R"( steps</span>
</div>
<div class="bar">
<button type="button" id="play-a" aria-pressed="false" aria-keyshortcuts="A">Play A</button>
)" + stepChoice ("a", "The step that A plays", steps) +
           R"(<button type="button" id="play-b" aria-pressed="false" aria-keyshortcuts="B">Play B</button>
)" + stepChoice ("b", "The step that B plays", steps) +
           "</div>\n</nav>\n";
}

} // namespace

std::string LessonFileName::sound (std::size_t step)
{
    return stepName (step, ".wav");
}

std::string LessonFileName::picture (std::size_t step, const StepPicture& picture)
{
    return stepName (step, std::string ("-") + picture.name + ".svg");
}

std::string lessonPage (const PlayedLesson& played)
{
    const auto& lesson = played.lesson;
    std::string page = pageHead (lesson.name) + "<a class=\"skip\" href=\"#steps\">To the steps</a>\n<header>\n<h1>" +
                       escaped (lesson.name) + "</h1>\n<p>" + escaped (lesson.steps.front().drum.drum.name) +
                       ". All steps are equally loud (" + fixedText (played.loudness, 1) + " LUFS, ITU-R BS.1770).</p>\n" +
                       "<p class=\"caution\">" + listeningCaution + "</p>\n";

    if (! exercisePage (played).empty())
        page += std::string ("<p class=\"screen\"><a href=\"") + exercisePageName +
                "\">Exercise: hear the steps shuffled and answer</a></p>\n";

    page += notesOnScreen (lesson.notes) + "</header>\n" + controls (played.steps.size()) + "<main id=\"steps\">\n";

    for (std::size_t i = 0; i < played.steps.size(); ++i)
        page += sectionOf (played.steps[i], i);

    return page + "</main>\n" + pageFoot ("P plays the step, A and B play two steps in turn, S stops") + notesOnPaper (lesson) +
           pageEnd ({ "sounds.js", "lesson.js" });
}

void writePages (const PlayedLesson& played, std::string_view browserPage,
                 const std::function<void (const std::string&, std::string_view)>& write)
{
    for (std::size_t i = 0; i < played.steps.size(); ++i)
        for (const auto& picture : stepPictures())
            write (LessonFileName::picture (i, picture), drawn (Format::svg, stepPictureWidth, stepPictureHeight,
                                                                [&] (Canvas& canvas) { picture.draw (canvas, played, i); }));

    for (const auto& file : pageFiles())
        write (file.name, file.text);

    if (const auto exercise = exercisePage (played); ! exercise.empty())
        write (exercisePageName, exercise);

    if (browserPage.empty())
        return write ("index.html", lessonPage (played));

    write (recordingsPageName, lessonPage (played));
    write ("index.html", livePage (played, browserPage));
}

} // namespace sheets
