#pragma once

#include "StrokeCurves.h"

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
    std::optional<double> ringWiresOn; ///< s, of the drum note as played; none without wires
    std::vector<std::string> changes; ///< one sentence for each change since the step before
    std::vector<float> sound;         ///< 48 kHz, one channel
    double mixLoudness = 0.0;         ///< LUFS of the usual stereo mix of its microphones, full scale 1 Pa
    StrokeCurves curves;              ///< of one stroke off centre
};

/** All steps at equal loudness (ITU-R BS.1770): at most −20 LUFS, and no peak above −1 dB of full scale. */
struct PlayedLesson
{
    files::LessonFile lesson;
    std::vector<PlayedStep> steps;
    double loudness = 0.0; ///< LUFS of every step
};

inline constexpr double lessonRate = 48000.0; ///< Hz

/** Solves and plays every step. `progress` is called with the share done after each; may be empty. Throws modal::InputError
   naming file and step, before anything is played, if a step cannot be tuned or its strokes cannot be read. */
PlayedLesson playLesson (const files::LessonFile&, const std::function<void (double)>& progress);

/** What makes a step as loud as the softest one when the drum itself plays it, dB, 0 or less. */
double playingGain (const PlayedLesson&, std::size_t step);

/** What changed from one step to the next, head by head, then wires, muffling and strokes. */
std::vector<std::string> changesBetween (const PlayedStep& from, const PlayedStep& to);

} // namespace sheets
