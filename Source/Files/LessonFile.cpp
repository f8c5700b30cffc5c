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

/** A member of the lesson or of one of its steps. */
struct Member
{
    const Json* value = nullptr;
    std::string path{}; ///< for errors
};

/** What may stand in the lesson, for all steps, or in a step, for that one. */
struct Settings
{
    Member drum, tuning, strokes, wires, muffling;
};

/** The settings of an object; those that it lacks are the `common` ones. */
Settings takeSettings (ObjectReader& reader, const Settings& common)
{
    const auto own = [&] (const char* key, const Member& otherwise)
    {
        const auto* value = reader.member (key);
        return value != nullptr ? Member{ value, reader.pathOf (key) } : otherwise;
    };

    return { own ("drum", common.drum), own ("tuning", common.tuning), own ("strokes", common.strokes),
             own ("wires", common.wires), own ("muffling", common.muffling) };
}

void requireGiven (const Member& member, const ObjectReader& step, const char* key, const char* what)
{
    if (member.value == nullptr)
        throw modal::InputError::fault (step.pathOf (key), "is missing, and the lesson has none for all steps", what);
}

std::string textOf (const Member& member)
{
    if (! member.value->is_string())
        throw modal::InputError (member.path, described (*member.value), "a text in double quotes");

    return member.value->get<std::string>();
}

DrumFile openDrumOf (const Member& member, const std::filesystem::path& folder)
{
    const auto name = textOf (member);

    try
    {
        return openDrum (findDrumPreset (name) != nullptr ? name : (folder / name).string());
    }
    catch (const modal::InputError& e)
    {
        // A name that is unknown, or a fault inside the drum file.
        throw e.of (e.field() == "drum" ? member.path : member.path + ", " + e.field());
    }
}

void checkMuffling (const modal::DrumSpec& drum, const std::string& source)
{
    try
    {
        modal::check (drum.muffling, drum.radius());
    }
    catch (const modal::InputError& e)
    {
        throw e.of (source + ": " + e.field());
    }
}

LessonStep readStep (const Json& value, const Settings& common, const std::string& source, const std::filesystem::path& folder)
{
    ObjectReader reader (value, source);
    LessonStep step;
    step.source = source;
    step.name = required (reader, "name", "a name");
    step.listenFor = reader.text ("listen_for").value_or ("");
    step.notes = reader.text ("notes").value_or ("");
    const auto own = takeSettings (reader, common);
    reader.finish();

    requireGiven (own.drum, reader, "drum", "a preset or a drum file");
    requireGiven (own.tuning, reader, "tuning", "a tuning, as in a drum file");
    requireGiven (own.strokes, reader, "strokes", "strokes as letters, such as \"o6...o3...\"");

    step.drum = openDrumOf (own.drum, folder);

    for (const auto* wires : { &common.wires, &own.wires })
        if (wires->value != nullptr)
            step.drum.wires = readWires (*wires->value, wires->path, step.drum.wires);

    if (own.muffling.value != nullptr)
    {
        step.drum.drum.muffling = readMuffling (*own.muffling.value, own.muffling.path);
        checkMuffling (step.drum.drum, source);
    }

    step.tuning = readTuning (*own.tuning.value, step.drum.drum, own.tuning.path);
    step.tuning.name = step.name;
    step.strokes = textOf (own.strokes);
    return step;
}

} // namespace

LessonFile readLesson (const std::string& text, const std::string& source, const std::filesystem::path& folder)
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
    lesson.stepsPerBeat = reader.count ("steps_per_beat", 1, 16).value_or (lesson.stepsPerBeat);
    lesson.beatsPerMinute = reader.number ("tempo", tempo, { 20.0, 400.0 }).value_or (lesson.beatsPerMinute);
    const auto common = takeSettings (reader, {});
    const auto* steps = reader.member ("steps");
    reader.finish();

    const auto allowed = "a list of 1 to " + std::to_string (mostSteps) + " steps";

    if (steps == nullptr)
        throw modal::InputError::fault (reader.pathOf ("steps"), "is missing", allowed);

    if (! steps->is_array() || steps->empty() || steps->size() > mostSteps)
        throw modal::InputError (reader.pathOf ("steps"),
                                 steps->is_array() ? "a list of " + std::to_string (steps->size()) : described (*steps), allowed);

    for (const auto& item : *steps)
        lesson.steps.push_back (readStep (item, common, source + ", step " + std::to_string (lesson.steps.size() + 1), folder));

    return lesson;
}

std::vector<std::string> lessonPresets()
{
    std::vector<std::string> names;

    for (const auto& lesson : embeddedLessons())
        names.emplace_back (lesson.name);

    return names;
}

const std::string_view* findLessonPreset (std::string_view name)
{
    for (const auto& lesson : embeddedLessons())
        if (lesson.name == name)
            return &lesson.text;

    return nullptr;
}

LessonFile openLesson (const std::string& presetOrPath)
{
    if (const auto* text = findLessonPreset (presetOrPath))
        return readLesson (std::string (*text), presetOrPath);

    const std::filesystem::path path (presetOrPath);
    std::error_code error;

    if (! std::filesystem::exists (path, error))
        throw modal::InputError ("lesson", '"' + presetOrPath + '"',
                                 "a lesson file, or one of the built-in lessons: " + listedFor (presetOrPath, lessonPresets()));

    return readLesson (loadText (path), path.filename().string(), path.parent_path());
}

} // namespace files
