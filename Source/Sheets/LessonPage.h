#pragma once

#include "Canvas.h"
#include "Lesson.h"

namespace sheets
{

/** A file of the exported folder. */
struct LessonFileName
{
    static std::string sound (std::size_t step);   ///< "step-01.wav"
    static std::string picture (std::size_t step); ///< "step-01.svg"
};

/** One step's picture: tap notes of both heads, the interval and the drum note against note names, the step before in grey. */
void drawStep (Canvas&, const PlayedLesson&, std::size_t step);

inline constexpr double stepPictureWidth = 480.0, stepPictureHeight = 300.0; ///< points

/** The page that works offline: sounds and pictures lie beside it. Arrow keys and two buttons step back and forth; teacher's
   notes open on a click and are printed. */
std::string lessonPage (const PlayedLesson&);

} // namespace sheets
