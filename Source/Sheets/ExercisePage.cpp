#include "Exercise.h"
#include "LessonPage.h"
#include "WebPage.h"

#include "Files/Json.h"

namespace sheets
{
namespace
{

/** What the page's script needs to ask and to judge. */
files::Json exerciseJson (const PlayedLesson& played, const std::vector<Question>& questions)
{
    files::Json steps = files::Json::array(), asked = files::Json::array();

    for (std::size_t i = 0; i < played.steps.size(); ++i)
        steps.push_back (files::Json{ { "name", played.steps[i].step.name }, { "sound", LessonFileName::sound (i) } });

    for (const auto& question : questions)
        asked.push_back (files::Json{ { "text", question.text },
                                      { "answers", question.answers },
                                      { "right", question.right },
                                      { "isAboutOneSound", question.isAboutOneSound } });

    return { { "name", played.lesson.name }, { "steps", steps }, { "questions", asked } };
}

} // namespace

std::string exercisePage (const PlayedLesson& played)
{
    const auto questions = questionsAbout (played.steps);

    if (questions.empty())
        return "";

    const auto title = "Exercise: " + played.lesson.name;
    return pageHead (title) + "<header class=\"screen\">\n<h1>" + escaped (title) + "</h1>\n" +
           R"(<p>Listen to each sound, compare it with the one before, and answer. Answers and score come at the end.</p>
<p class="caution">)" +
           listeningCaution + R"(</p>
<div class="bar">
<label>Exercise number <input type="number" id="number" min="1" max="999" value="1"></label>
<button type="button" id="new">New exercise</button>
<button type="button" id="print">Print answer sheet</button>
<a href="index.html">Lesson</a>
</div>
<p>One number gives the same order of sounds on every screen and on paper.</p>
<noscript><p>This page needs scripts to be allowed.</p></noscript>
</header>
<main class="screen">
<p id="status" role="status"></p>
<form id="card">
<h2 id="place" tabindex="-1"></h2>
<div class="bar">
<button type="button" id="hear-before" aria-keyshortcuts="A">Play the sound before <kbd>A</kbd></button>
<button type="button" id="hear" class="main" aria-keyshortcuts="B">Play this sound <kbd>B</kbd></button>
</div>
<div id="questions"></div>
<div class="bar">
<button type="button" id="back" aria-keyshortcuts="ArrowLeft">&#8592; Back</button>
<button type="submit" id="next" class="main"></button>
</div>
</form>
<section id="result" aria-labelledby="result-heading" hidden>
<h2 id="result-heading" tabindex="-1">Answers</h2>
<p class="score" id="score"></p>
<div id="answers" class="scroll"></div>
</section>
</main>
<div id="paper" class="paper"></div>
<script type="application/json" id="exercise">)" +
           inScript (exerciseJson (played, questions)) + "</script>\n" +
           pageFoot ("A plays the sound before, B plays this sound, S stops") + pageEnd ({ "sounds.js", "exercise.js" });
}

} // namespace sheets
