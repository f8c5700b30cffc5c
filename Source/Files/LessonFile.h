#pragma once

#include "DrumFile.h"

#include <string>
#include <vector>

namespace files
{

/** One step of a lesson: a tuning and what to say about it. */
struct LessonStep
{
    std::string name;
    modal::Tuning tuning;
    std::string listenFor; ///< for the pupils
    std::string notes;     ///< for the teacher
};

/** An ordered list of tunings of one drum, all played with the same strokes.

        { "format": "snarewright-lesson", "version": 1, "name": "One head at a time", "notes": "…", "drum": "maple-14x5",
          "strokes": "o6...o3...r7.......", "steps_per_beat": 4, "tempo_bpm": 100,
          "steps": [ { "name": "…", "tuning": { "batter": { "tap_note": "G#3" }, "interval": "P4" }, "listen_for": "…",
                       "notes": "…" } ] }

    The drum is a preset's name or a file's path; strokes are written as score::readPattern() reads them. */
struct LessonFile
{
    std::string name;
    std::string notes; ///< for the teacher
    DrumFile drum;
    std::string strokes;
    int stepsPerBeat = 4;
    double beatsPerMinute = 100.0;
    std::vector<LessonStep> steps; ///< 1 to 100
};

/** Throws modal::InputError naming the path of the field, the value and what is allowed. */
LessonFile readLesson (const std::string& text, const std::string& source);

/** A lesson by the name of one that comes with the program, or else from a file. */
LessonFile openLesson (const std::string& presetOrPath);

/** Names of the lessons that come with the program. */
std::vector<std::string> lessonPresets();

} // namespace files
