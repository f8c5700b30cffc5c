#include "LessonPage.h"

#include "TuningSheet.h"

#include "Modal/NumberText.h"

#include <algorithm>
#include <cmath>

namespace sheets
{

using namespace modal;

namespace
{

std::string stepName (std::size_t step, const char* ending)
{
    char text[48];
    std::snprintf (text, sizeof (text), "step-%02d.%s", static_cast<int> (step + 1), ending);
    return text;
}

std::string escaped (const std::string& words)
{
    std::string text;

    for (const char c : words)
    {
        if (c == '&')
            text += "&amp;";
        else if (c == '<')
            text += "&lt;";
        else if (c == '>')
            text += "&gt;";
        else if (c == '"')
            text += "&quot;";
        else
            text += c;
    }

    return text;
}

std::string noteText (double hertz, const Prediction& p)
{
    return Note::fromFrequency (hertz, p.tuning.concertPitch).nameWithCents() + " (" + fixedText (hertz, 1) + " Hz)";
}

/** The range of notes over all steps, in MIDI numbers. */
std::pair<int, int> noteRange (const PlayedLesson& played)
{
    int low = 127, high = 0;

    for (const auto& step : played.steps)
        for (const double hertz : { step.prediction.batter.tapNote, step.prediction.resonant.tapNote, step.prediction.drumNote })
            if (hertz > 0.0)
            {
                const int midi = Note::fromFrequency (hertz, step.prediction.tuning.concertPitch).midi;
                low = std::min (low, midi - 1);
                high = std::max (high, midi + 1);
            }

    return { low, high };
}

const char* const style =
    R"(body{font:18px/1.5 sans-serif;max-width:52em;margin:1em auto;padding:0 1em;color:#000;background:#fff}
section{border-top:1px solid #000;padding:1em 0}section:target h2{text-decoration:underline}
img{max-width:100%;height:auto;border:1px solid #888}audio{width:100%}table{border-collapse:collapse}
td,th{border:1px solid #888;padding:.2em .6em;text-align:left}button,a.step{font:inherit;padding:.3em .8em}
nav{position:sticky;top:0;background:#fff;padding:.5em 0;border-bottom:1px solid #000}
@media print{nav,audio{display:none}details>*{display:block}section{break-inside:avoid}})";

const char* const script = R"(const steps=[...document.querySelectorAll('section')];let now=0;
function go(to){now=Math.max(0,Math.min(steps.length-1,to));document.querySelectorAll('audio').forEach(a=>a.pause());
steps[now].scrollIntoView();document.getElementById('where').textContent=(now+1)+' of '+steps.length;}
document.getElementById('back').onclick=()=>go(now-1);document.getElementById('next').onclick=()=>go(now+1);
document.getElementById('play').onclick=()=>{const a=steps[now].querySelector('audio');a.currentTime=0;a.play();};
document.addEventListener('keydown',e=>{if(e.key==='ArrowRight')go(now+1);if(e.key==='ArrowLeft')go(now-1);});)";

std::string sectionOf (const PlayedStep& played, std::size_t index)
{
    const auto& p = played.prediction;
    const auto id = std::to_string (index + 1);
    std::string text = "<section id=\"step-" + id + "\">\n<h2>" + id + ". " + escaped (played.step.name) + "</h2>\n<p>";

    for (const auto& change : played.changes)
        text += escaped (change) + " ";

    text += "</p>\n";

    if (! played.step.listenFor.empty())
        text += "<p><strong>Listen for:</strong> " + escaped (played.step.listenFor) + "</p>\n";

    text += "<audio controls preload=\"metadata\" src=\"" + LessonFileName::sound (index) + "\"></audio>\n<p><img src=\"" +
            LessonFileName::picture (index) + "\" alt=\"Notes of the heads and of the drum in step " + id + "\"></p>\n<table>\n" +
            "<tr><th></th><th>tap note</th><th>tension, N/m</th><th>% of yield strength</th></tr>\n";

    const auto row = [&] (const char* name, const HeadPrediction& head)
    {
        text += std::string ("<tr><th>") + name + "</th><td>" + noteText (head.tapNote, p) + "</td><td>" +
                fixedText (head.tension, 0) + "</td><td>" + fixedText (100.0 * head.yieldShare, 0) + " %</td></tr>\n";
    };

    row ("Batter", p.batter);

    if (p.drum.hasResonantHead())
        row ("Resonant", p.resonant);

    text += "</table>\n<p>Drum note " + noteText (p.drumNote, p) + ", ring " + fixedText (p.sustain, 2) + " s to -60 dB, wires off";

    if (p.drum.hasResonantHead())
        text += "; interval " + escaped (p.interval.longName());

    text += ".</p>\n";

    if (! played.step.notes.empty())
        text += "<details><summary>Teacher's notes</summary><p>" + escaped (played.step.notes) + "</p></details>\n";

    return text + "</section>\n";
}

} // namespace

std::string LessonFileName::sound (std::size_t step)
{
    return stepName (step, "wav");
}

std::string LessonFileName::picture (std::size_t step)
{
    return stepName (step, "svg");
}

void drawStep (Canvas& canvas, const PlayedLesson& played, std::size_t step)
{
    const auto [low, high] = noteRange (played);
    constexpr double top = 40.0, left = 46.0;
    const double bottom = canvas.height() - 20.0, right = canvas.width() - 16.0;
    const auto pitch = played.steps[step].prediction.tuning.concertPitch;
    const auto yOf = [&, lowest = low, highest = high] (double hertz)
    {
        const auto note = Note::fromFrequency (hertz, pitch);
        const double semitone = note.midi + note.cents / 100.0;
        return bottom - (semitone - lowest) / (highest - lowest) * (bottom - top);
    };

    canvas.text (left, 18.0, std::to_string (step + 1) + ". " + played.steps[step].step.name, 11.0, Align::left, true);

    for (int midi = low; midi <= high; ++midi)
    {
        const double y = yOf (Note{ midi, 0.0 }.frequency (pitch));
        canvas.line (left, y, right, y, 0.4, 0.8);
        canvas.text (left - 5.0, y + 2.5, Note{ midi, 0.0 }.name(), 7.5, Align::right);
    }

    const double lane = (right - left) / 3.0;
    const char* const names[] = { "batter", "drum", "resonant" };

    const auto drawNotes = [&] (const Prediction& p, bool isBefore)
    {
        const double notes[] = { p.batter.tapNote, p.drumNote, p.resonant.tapNote };

        for (int i = 0; i < 3; ++i)
        {
            if (! (notes[i] > 0.0))
                continue;

            const double x = left + lane * (i + 0.5), y = yOf (notes[i]);

            if (isBefore)
            {
                canvas.circle (x, y, 7.0, 1.0, 0.55);
                continue;
            }

            canvas.disc (x, y, 7.0, 0.0);
            canvas.text (x + 12.0, y + 3.0, Note::fromFrequency (notes[i], pitch).nameWithCents(), 9.0);
        }
    };

    for (int i = 0; i < 3; ++i)
        canvas.text (left + lane * (i + 0.5), top - 8.0, names[i], 9.0, Align::middle, true);

    if (step > 0)
        drawNotes (played.steps[step - 1].prediction, true);

    drawNotes (played.steps[step].prediction, false);
    canvas.text (left, canvas.height() - 5.0, step > 0 ? "filled: this step; open: the step before" : "tap notes and drum note",
                 7.5);
}

std::string lessonPage (const PlayedLesson& played)
{
    std::string page = "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" "
                       "content=\"width=device-width, initial-scale=1\">\n<title>" +
                       escaped (played.lesson.name) + "</title>\n<style>" + style + "</style>\n</head>\n<body>\n<h1>" +
                       escaped (played.lesson.name) + "</h1>\n<p>" + escaped (played.lesson.drum.drum.name) +
                       ". All steps have the same strokes and equal loudness (" + fixedText (played.loudness, 1) +
                       " LKFS, ITU-R BS.1770).</p>\n";

    if (! played.lesson.notes.empty())
        page += "<details><summary>Teacher's notes</summary><p>" + escaped (played.lesson.notes) + "</p></details>\n";

    page +=
        "<nav><button id=\"back\">&#8592; Back</button> <button id=\"play\">Play</button> <button id=\"next\">Next &#8594;</button> "
        "step <span id=\"where\">1 of " +
        std::to_string (played.steps.size()) + "</span></nav>\n";

    for (std::size_t i = 0; i < played.steps.size(); ++i)
        page += sectionOf (played.steps[i], i);

    page += "<footer><h2>Cautions</h2><ul>\n";

    for (const auto& caution : usualCautions())
        page += "<li>" + escaped (caution) + "</li>\n";

    page += "<li>Start at low volume: a drum's attack is far louder than its average.</li>\n</ul></footer>\n<script>";
    return page + script + "</script>\n</body>\n</html>\n";
}

} // namespace sheets
