#pragma once

#include "Canvas.h"
#include "Lesson.h"

#include <array>

namespace sheets
{

/** A picture of one step of a lesson; the step before is drawn thin or open. */
struct StepPicture
{
    const char* name;  ///< in file names
    const char* title; ///< above its description
    const char* kind;  ///< what a screen reader calls it
    void (*draw) (Canvas&, const PlayedLesson&, std::size_t step);
    std::string (*describe) (const PlayedStep&); ///< its content as a sentence
};

/** Notes, ring and spectrum. */
const std::array<StepPicture, 3>& stepPictures();

inline constexpr double stepPictureWidth = 320.0, stepPictureHeight = 270.0; ///< points

} // namespace sheets
