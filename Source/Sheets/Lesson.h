#pragma once

#include "Files/LessonFile.h"
#include "Modal/Prediction.h"

#include <functional>
#include <string>
#include <vector>

namespace sheets
{

/** A step of a lesson, predicted and played. */
struct PlayedStep
{
    files::LessonStep step;
    modal::Prediction prediction;
    std::vector<std::string> changes; ///< one sentence for each change since the step before
    std::vector<float> sound;         ///< 48 kHz, one channel
};

/** All steps at equal loudness (ITU-R BS.1770): at most −20 LKFS, and no peak above −1 dB of full scale. */
struct PlayedLesson
{
    files::LessonFile lesson;
    std::vector<PlayedStep> steps;
    double loudness = 0.0; ///< LKFS of every step
};

inline constexpr double lessonRate = 48000.0; ///< Hz

/** Solves and plays every step. `progress` is called with the share done after each; may be empty. */
PlayedLesson playLesson (const files::LessonFile&, const std::function<void (double)>& progress);

/** What changed from one prediction to the next, head by head. */
std::vector<std::string> changesBetween (const modal::Prediction& from, const modal::Prediction& to);

} // namespace sheets
