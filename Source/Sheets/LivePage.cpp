#include "LessonPage.h"
#include "WebPage.h"

#include "Files/Json.h"
#include "Modal/InputError.h"

namespace sheets
{
namespace
{

/** The drum of a step as a drum file with its one tuning. */
files::Json drumOf (const files::LessonStep& step)
{
    auto drum = step.drum;
    drum.tunings = { step.tuning };
    return files::Json::parse (files::writeDrum (drum));
}

/** What the page needs to play the lesson (Source/Web/page/lesson.js). */
files::Json lessonJson (const PlayedLesson& played)
{
    files::Json steps = files::Json::array();

    for (std::size_t i = 0; i < played.steps.size(); ++i)
    {
        const auto& step = played.steps[i].step;
        steps.push_back (files::Json{ { "name", step.name },
                                      { "listen_for", step.listenFor },
                                      { "notes", step.notes },
                                      { "strokes", step.strokes },
                                      { "changes", played.steps[i].changes },
                                      { "gain_db", playingGain (played, i) },
                                      { "sound", LessonFileName::sound (i) },
                                      { "document", drumOf (step) } });
    }

    const auto& lesson = played.lesson;
    return files::Json{ { "name", lesson.name },
                        { "notes", lesson.notes },
                        { "tempo_bpm", lesson.beatsPerMinute },
                        { "steps_per_beat", lesson.stepsPerBeat },
                        { "recordings", recordingsPageName },
                        { "exercise", exercisePage (played).empty() ? "" : exercisePageName },
                        { "steps", steps } };
}

} // namespace

std::string livePage (const PlayedLesson& played, std::string_view browserPage)
{
    constexpr std::string_view place = "<script type=\"application/json\" id=\"lesson\">";
    const auto found = browserPage.find (place);

    if (found == std::string_view::npos)
        throw modal::InputError::fault ("the browser's page", "has no place for a lesson", "one that Source/Web/build made");

    const auto at = found + place.size();
    return std::string (browserPage.substr (0, at)) + inScript (lessonJson (played)) + std::string (browserPage.substr (at));
}

} // namespace sheets
