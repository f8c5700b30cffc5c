#include "StateDocument.h"

#include "ParameterText.h"

#include "Modal/InputError.h"

#include <cmath>

namespace plugin
{
namespace
{
using files::Json;

const char* const format = "snarewright-state";
constexpr int version = 1;
constexpr std::size_t longestName = 200;

/** A state that went wrong in many places is told of in this many sentences. */
constexpr std::size_t mostMessages = 8;

std::string keyOf (const ParameterSpec& spec)
{
    return spec.measure == Measure::quantity && *spec.unitKey != '\0' ? std::string (spec.id) + "_" + spec.unitKey : spec.id;
}

Json jsonOf (const ParameterSpec& spec, float value)
{
    switch (spec.measure)
    {
    case Measure::choice:
        return spec.words[static_cast<std::size_t> (spec.snapped (static_cast<double> (value)))];
    case Measure::toggle:
        return value >= 0.5f;
    default:
    {
        // The float's own shortest decimal, so that a file says 0.1 and not 0.10000000149.
        const auto snapped = spec.snapped (static_cast<double> (value));
        return static_cast<float> (snapped) == value ? snapped : static_cast<double> (value);
    }
    }
}

/** Throws modal::InputError. */
float valueOf (const ParameterSpec& spec, const Json& json)
{
    if (spec.measure == Measure::toggle)
    {
        if (const auto* isOn = json.boolean())
            return *isOn ? 1.0f : 0.0f;
        throw modal::InputError (spec.name, json.described(), "true or false");
    }

    if (spec.measure == Measure::choice)
    {
        if (const auto* word = json.text())
            return static_cast<float> (valueFrom (*word, spec));
        throw modal::InputError (spec.name, json.described(), "a word");
    }

    const auto* number = json.number();
    if (number == nullptr || ! (*number >= spec.low && *number <= spec.high))
        throw modal::InputError (spec.name, json.described(), textOf (spec, spec.low) + " to " + textOf (spec, spec.high));

    return static_cast<float> (*number);
}

Json::Object written (const Values& values)
{
    Json::Object object;
    for (std::size_t i = 0; i < parameterCount; ++i)
        object.emplace_back (keyOf (parameterTable()[i]), jsonOf (parameterTable()[i], values[i]));
    return object;
}

class Reader
{
public:
    explicit Reader (StateReading& toFill) : reading (toFill) {}

    void read (const Json& document)
    {
        const auto* members = document.object();

        if (members == nullptr)
            return fail ("The state is " + document.described() + " instead of a document.");

        const auto* formatMember = document.find ("format");

        if (formatMember == nullptr || formatMember->text() == nullptr || *formatMember->text() != format)
            return fail ("The state is not one of this plugin's.");

        for (const auto& [key, value] : *members)
            if (key == "format")
                continue;
            else if (key == "version")
                readVersion (value);
            else if (key == "name")
                readName (value);
            else if (key == "sound")
                readValues (value, reading.state.live, &reading.state.unknownInSound);
            else if (key == "snapshot_a")
                readSnapshot (value, reading.state.a);
            else if (key == "snapshot_b")
                readSnapshot (value, reading.state.b);
            else
                reading.state.unknown.emplace_back (key, value);
    }

    void fail (const std::string& message)
    {
        reading.isUsable = false;
        say (message);
    }

private:
    void say (const std::string& message)
    {
        if (reading.messages.size() < mostMessages)
            reading.messages.push_back (message);
    }

    void readVersion (const Json& value)
    {
        const auto* number = value.number();
        if (number == nullptr || *number < 1.0)
            say ("The state's version is " + value.described() + ".");
        else if (*number > version)
            say ("The state was saved by a newer version; what this one does not know is kept but not used.");
    }

    void readName (const Json& value)
    {
        const auto* text = value.text();
        if (text == nullptr || text->size() > longestName)
            say ("The state's name is " + value.described() + ".");
        else
            reading.state.name = *text;
    }

    void readSnapshot (const Json& value, std::optional<Values>& snapshot)
    {
        snapshot = initialValues();
        readValues (value, *snapshot, nullptr);
    }

    void readValues (const Json& object, Values& values, Json::Object* unknown)
    {
        const auto* members = object.object();

        if (members == nullptr)
            return say ("A sound in the state is " + object.described() + ".");

        for (const auto& [key, value] : *members)
            if (! readParameter (key, value, values) && unknown != nullptr)
                unknown->emplace_back (key, value);
    }

    /** False if there is no parameter of that name. */
    bool readParameter (const std::string& key, const Json& value, Values& values)
    {
        for (std::size_t i = 0; i < parameterCount; ++i)
        {
            const auto& spec = parameterTable()[i];
            if (key != keyOf (spec))
                continue;

            try
            {
                values[i] = valueOf (spec, value);
            }
            catch (const modal::InputError& e)
            {
                say (e.what());
            }
            return true;
        }

        return false;
    }

    StateReading& reading;
};

void append (Json::Object& object, const Json::Object& more)
{
    object.insert (object.end(), more.begin(), more.end());
}
} // namespace

StateReading readState (std::string_view document)
{
    StateReading reading;
    Reader reader (reading);

    if (document.size() > largestState)
    {
        reader.fail ("The state is larger than any that this plugin writes.");
        return reading;
    }

    try
    {
        reader.read (Json::parse (document, "state"));
    }
    catch (const modal::InputError& e)
    {
        reading = {};
        reader.fail (std::string ("The state is damaged and was left out: ") + e.what());
    }

    return reading;
}

std::string writeState (const State& state)
{
    Json::Object document{ { "format", format }, { "version", version } };

    if (! state.name.empty())
        document.emplace_back ("name", state.name);

    auto sound = written (state.live);
    append (sound, state.unknownInSound);
    document.emplace_back ("sound", std::move (sound));

    if (state.a)
        document.emplace_back ("snapshot_a", written (*state.a));
    if (state.b)
        document.emplace_back ("snapshot_b", written (*state.b));

    append (document, state.unknown);
    return Json (std::move (document)).written();
}

} // namespace plugin
