#pragma once

#include "Lesson.h"
#include "LessonPicture.h"

#include <functional>
#include <string>

namespace sheets
{

/** The page of a lesson, one step at a time; without scripts and on paper all of them, then the teacher's notes on a page of
   their own. */
std::string lessonPage (const PlayedLesson&);

/** The page on which each step is the live drum: the browser's page with the lesson in it. The recordings' page,
   `recordingsPageName`, stays for where the drum cannot play, and for paper. */
std::string livePage (const PlayedLesson&, std::string_view browserPage);
inline constexpr const char* recordingsPageName = "recordings.html";

/** The page of exercises: steps shuffled, titles and figures hidden, questions, answers and score at the end, and an answer
   sheet on paper. Empty if the lesson leaves nothing to ask. */
std::string exercisePage (const PlayedLesson&);
inline constexpr const char* exercisePageName = "exercise.html";

/** A file of the folder of a lesson. */
struct LessonFileName
{
    static std::string sound (std::size_t step);                       ///< "step-01.wav"
    static std::string picture (std::size_t step, const StepPicture&); ///< "step-01-notes.svg"
};

/** Everything in the folder of a lesson but the sounds, the page that a person opens last: `write` takes a name and the bytes.
   Without a browser's page, steps play as recordings only. */
void writePages (const PlayedLesson&, std::string_view browserPage,
                 const std::function<void (const std::string& name, std::string_view bytes)>& write);

} // namespace sheets
