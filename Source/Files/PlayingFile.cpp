// Microphones and pattern of a drum file.

#include "PlayingFile.h"

#include "DrumWords.h"
#include "Fields.h"

#include "Modal/InputError.h"

namespace files
{
namespace
{
constexpr Limits placeLimits{ -15.0, 15.0 }, levelLimits{ -60.0, 24.0 }, panLimits{ -1.0, 1.0 }, tempoLimits{ 20.0, 400.0 };
constexpr std::size_t longestPattern = 1024;

const Quantity& level()
{
    static const Quantity quantity{ "level", { { "db", "dB", 1.0 } } };
    return quantity;
}

const Quantity& tempo()
{
    static const Quantity quantity{ "tempo", { { "bpm", "bpm", 1.0 } } };
    return quantity;
}

MicrophoneSpec readMicrophone (const Json& value, const std::string& path)
{
    MicrophoneSpec microphone;
    ObjectReader reader (value, path);
    const auto take = [&] (const char* name, const Quantity& quantity, const Limits& limits, double& target)
    {
        if (const auto number = reader.number (name, quantity, limits))
            target = *number;
        else
            reader.noteMissing (name, std::string (name) + " of the microphone");
    };
    take ("along", Quantity::length, placeLimits, microphone.x);
    take ("across", Quantity::length, placeLimits, microphone.y);
    take ("up", Quantity::length, placeLimits, microphone.z);
    take ("level", level(), levelLimits, microphone.level);
    take ("pan", Quantity::pureNumber, panLimits, microphone.pan);

    if (const auto* inverted = reader.member ("inverted"))
    {
        if (! inverted->is_boolean())
            throw modal::InputError (reader.pathOf ("inverted"), described (*inverted), "true or false");
        microphone.isInverted = inverted->get<bool>();
    }

    reader.finish();
    return microphone;
}
} // namespace

MicrophoneSpecs readMicrophones (const Json& value, const std::string& path)
{
    MicrophoneSpecs microphones;
    ObjectReader reader (value, path);

    for (std::size_t i = 0; i < microphones.size(); ++i)
    {
        const auto* const name = microphoneWords[i];

        if (const auto* member = reader.member (name))
            microphones[i] = readMicrophone (*member, reader.pathOf (name));
        else
            reader.noteMissing (name, "the microphones above, below and distant");
    }

    reader.finish();
    return microphones;
}

Json microphonesAsJson (const MicrophoneSpecs& microphones)
{
    auto object = Json::object();

    for (std::size_t i = 0; i < microphones.size(); ++i)
    {
        const auto& microphone = microphones[i];
        auto written = Json::object();
        writeNumber (written, "along", Quantity::length, microphone.x);
        writeNumber (written, "across", Quantity::length, microphone.y);
        writeNumber (written, "up", Quantity::length, microphone.z);
        writeNumber (written, "level", level(), microphone.level);
        writeNumber (written, "pan", Quantity::pureNumber, microphone.pan);
        written["inverted"] = microphone.isInverted;
        object[microphoneWords[i]] = written;
    }

    return object;
}

PatternSpec readPattern (const Json& value, const std::string& path)
{
    PatternSpec pattern;
    ObjectReader reader (value, path);

    if (const auto strokes = reader.text ("strokes"))
        pattern.strokes = *strokes;
    else
        reader.noteMissing ("strokes", "strokes and rests, such as \"o8.. o2..\"");

    pattern.tempo = reader.number ("tempo", tempo(), tempoLimits).value_or (pattern.tempo);
    pattern.stepsPerBeat = reader.count ("steps_per_beat", 1, 16).value_or (pattern.stepsPerBeat);
    reader.finish();

    if (pattern.strokes.size() > longestPattern)
        throw modal::InputError (reader.pathOf ("strokes"), std::to_string (pattern.strokes.size()) + " letters",
                                 "at most 1024 letters");

    return pattern;
}

Json patternAsJson (const PatternSpec& pattern)
{
    Json object{ { "strokes", pattern.strokes } };
    writeNumber (object, "tempo", tempo(), pattern.tempo);
    object["steps_per_beat"] = pattern.stepsPerBeat;
    return object;
}

} // namespace files
