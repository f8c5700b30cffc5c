#pragma once

#include "DrumFile.h"

#include <filesystem>
#include <string>
#include <vector>

namespace files
{

/** One step of a lesson: a tuned drum, what is played on it, and what to say about it. */
struct LessonStep
{
    std::string name;
    DrumFile drum; ///< with the wires and the muffling of this step
    modal::Tuning tuning;
    std::string strokes;   ///< letters as score::readPattern() reads them
    std::string listenFor; ///< for the pupils
    std::string notes;     ///< for the teacher
    std::string source;    ///< file and number of the step, for errors: "my-lesson.json, step 2"
};

/** An ordered list of steps. README.md beside this file describes the document. */
struct LessonFile
{
    std::string name;
    std::string notes; ///< for the teacher
    int stepsPerBeat = 4;
    double beatsPerMinute = 100.0;
    std::vector<LessonStep> steps; ///< 1 to 100
};

/** Reads a lesson; drum files that it names are looked for in `folder`. Strokes are checked when they are played. Throws
   modal::InputError naming the file, the step, the field, the value and what is allowed. */
LessonFile readLesson (const std::string& text, const std::string& source, const std::filesystem::path& folder = {});

/** A lesson by the name of one that comes with the program, or else from a file. */
LessonFile openLesson (const std::string& presetOrPath);

/** Names of the lessons that come with the program. */
std::vector<std::string> lessonPresets();

/** The document of the lesson that comes with the program under that name, or nullptr. */
const std::string_view* findLessonPreset (std::string_view name);

} // namespace files
