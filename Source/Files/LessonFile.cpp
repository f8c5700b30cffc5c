#include "LessonFile.h"

#include "EmbeddedFiles.h"
#include "NearestWord.h"
#include "ObjectReader.h"
#include "Presets.h"
#include "TextFile.h"

#include "Modal/InputError.h"

#include <filesystem>

namespace files
{
namespace
{

const char* const lessonFormat = "snarewright-lesson";
constexpr int lessonVersion = 1;
constexpr std::size_t mostSteps = 100;

std::string required (ObjectReader& reader, const char* key, const char* what)
{
    const auto text = reader.text (key);

    if (! text)
        throw modal::InputError::fault (reader.pathOf (key), "is missing", what);

    return *text;
}

LessonStep readStep (const Json& value, const modal::DrumSpec& drum, const std::string& path)
{
    ObjectReader reader (value, path);
    LessonStep step;
    step.name = required (reader, "name", "a name");
    step.listenFor = reader.text ("listen_for").value_or ("");
    step.notes = reader.text ("notes").value_or ("");
    const auto* tuning = reader.member ("tuning");

    if (tuning == nullptr)
        throw modal::InputError::fault (reader.pathOf ("tuning"), "is missing", "a tuning, as in a drum file");

    step.tuning = readTuning (*tuning, drum, reader.pathOf ("tuning"));
    step.tuning.name = step.name;
    reader.finish();
    return step;
}

} // namespace

LessonFile readLesson (const std::string& text, const std::string& source)
{
    static const Quantity tempo{ "tempo", { { "bpm", "beats a minute", 1.0 } }, true };
    const auto document = parseJson (text, source);
    ObjectReader reader (document, source);

    if (! reader.choice ("format", { lessonFormat }))
        throw modal::InputError::fault (reader.pathOf ("format"), "is missing", std::string ("\"") + lessonFormat + "\"");

    if (! reader.count ("version", lessonVersion, lessonVersion))
        throw modal::InputError::fault (reader.pathOf ("version"), "is missing", std::to_string (lessonVersion));

    LessonFile lesson;
    lesson.name = required (reader, "name", "a name");
    lesson.notes = reader.text ("notes").value_or ("");
    lesson.strokes = required (reader, "strokes", "strokes as letters, such as \"o6...o3...\"");
    lesson.stepsPerBeat = reader.count ("steps_per_beat", 1, 16).value_or (lesson.stepsPerBeat);
    lesson.beatsPerMinute = reader.number ("tempo", tempo, { 20.0, 400.0 }).value_or (lesson.beatsPerMinute);
    lesson.drum = openDrum (required (reader, "drum", "a preset or a drum file"));

    const auto* steps = reader.member ("steps");

    if (steps == nullptr || ! steps->is_array() || steps->empty() || steps->size() > mostSteps)
        throw modal::InputError (reader.pathOf ("steps"), steps == nullptr ? "a missing value" : described (*steps),
                                 "a list of 1 to " + std::to_string (mostSteps) + " steps");

    for (const auto& item : *steps)
        lesson.steps.push_back (
            readStep (item, lesson.drum.drum, reader.pathOf ("steps") + "[" + std::to_string (lesson.steps.size()) + "]"));

    reader.finish();
    return lesson;
}

std::vector<std::string> lessonPresets()
{
    std::vector<std::string> names;

    for (const auto& lesson : embeddedLessons())
        names.emplace_back (lesson.name);

    return names;
}

LessonFile openLesson (const std::string& presetOrPath)
{
    for (const auto& lesson : embeddedLessons())
        if (lesson.name == presetOrPath)
            return readLesson (std::string (lesson.text), presetOrPath);

    std::error_code error;

    if (! std::filesystem::exists (presetOrPath, error))
        throw modal::InputError ("lesson", '"' + presetOrPath + '"',
                                 "a file that exists, or one of those that come along: " + listed (lessonPresets()));

    return readLesson (loadText (presetOrPath), presetOrPath);
}

} // namespace files
