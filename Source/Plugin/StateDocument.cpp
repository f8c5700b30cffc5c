#include "StateDocument.h"

#include "ParameterText.h"
#include "SetValue.h"

#include "Files/DrumFile.h"
#include "Files/Json.h"

#include "Modal/InputError.h"

#include <cmath>

namespace plugin
{
namespace
{
using files::Json;

const char* const stateFormat = "snarewright-state";
constexpr int stateVersion = 1;
constexpr std::size_t longestName = 200;

/** At most this many errors of a state are reported. */
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
        // The shortest decimal that reads back as the same float: 0.1, not 0.10000000149.
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
        if (json.is_boolean())
            return json.get<bool>() ? 1.0f : 0.0f;
        throw modal::InputError (spec.name, files::described (json), "true or false");
    }

    if (spec.measure == Measure::choice)
    {
        if (json.is_string())
            return static_cast<float> (valueFrom (json.get<std::string>(), spec));
        throw modal::InputError (spec.name, files::described (json), "a word");
    }

    const auto number = json.is_number() ? json.get<double>() : std::nan ("");
    if (! (number >= spec.low && number <= spec.high))
        throw modal::InputError (spec.name, files::described (json), textOf (spec, spec.low) + " to " + textOf (spec, spec.high));

    return static_cast<float> (number);
}

Json asJson (const Values& values)
{
    auto object = Json::object();
    for (std::size_t i = 0; i < parameterCount; ++i)
        object[keyOf (parameterTable()[i])] = jsonOf (parameterTable()[i], values[i]);
    return object;
}

std::string snapshotKey (std::size_t number)
{
    return std::string ("snapshot_") + static_cast<char> ('a' + number);
}

std::optional<std::size_t> snapshotOf (const std::string& key)
{
    for (std::size_t i = 0; i < LiveSound::snapshotCount; ++i)
        if (key == snapshotKey (i))
            return i;
    return std::nullopt;
}

class StateReader
{
public:
    explicit StateReader (StateReading& toFill) : reading (toFill) {}

    void read (const Json& document)
    {
        if (! document.is_object())
            return fail ("state: " + files::described (document) + " cannot be used; allowed: a JSON object");

        if (const auto found = document.find ("format"); found == document.end() || *found != stateFormat)
            return fail ("The state was not saved by this plugin.");

        auto unknown = Json::object();

        for (const auto& [key, value] : document.items())
            if (key == "format")
                continue;
            else if (key == "version")
                readVersion (value);
            else if (key == "name")
                readName (value);
            else if (key == "sound")
                reading.state.unknownInSound = readValues (value, reading.state.live);
            else if (const auto number = snapshotOf (key))
                readSnapshot (value, reading.state.snapshots[*number]);
            else
                unknown[key] = value;

        reading.state.unknown = unknown.dump();
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
        const auto number = value.is_number() ? value.get<double>() : 0.0;
        if (number < 1.0)
            say ("version: " + files::described (value) + " cannot be used; allowed: a number, 1 or more");
        else if (number > stateVersion)
            say ("The state was saved by a newer version; members unknown to this version are kept but not used.");
    }

    void readName (const Json& value)
    {
        if (! value.is_string() || value.get_ref<const std::string&>().size() > longestName)
            say ("name: " + files::described (value) + " cannot be used; allowed: text of at most " +
                 std::to_string (longestName) + " bytes");
        else
            reading.state.name = value.get<std::string>();
    }

    void readSnapshot (const Json& value, std::optional<Values>& snapshot)
    {
        snapshot = initialValues();
        readValues (value, *snapshot);
    }

    /** Reads parameters into `values`. Returns the members that are no parameters, as JSON. */
    std::string readValues (const Json& object, Values& values)
    {
        auto unknown = Json::object();
        PointStick points;

        if (! object.is_object())
            say ("sound: " + files::described (object) + " cannot be used; allowed: an object of parameters");
        else
            for (const auto& [key, value] : object.items())
                if (! readParameter (key, value, values) && ! points.read (key, value))
                    unknown[key] = value;

        points.convert (values);
        return unknown.dump();
    }

    /** The stick of states saved before sticks had a body. */
    class PointStick
    {
    public:
        /** False if this is none of its members. */
        bool read (const std::string& key, const Json& value)
        {
            if (key != "stick_mass_g" && key != "stick_tip_n_per_m15" && key != "shaft_mass_g")
                return false;
            if (value.is_number() && key == "stick_mass_g")
                tipMass = 1.0e-3 * value.get<double>();
            if (value.is_number() && key == "stick_tip_n_per_m15")
                tipStiffness = value.get<double>();
            isThere = true;
            return true;
        }

        void convert (Values& values) const
        {
            if (! isThere)
                return;
            const auto stick = files::stickOfPoints (tipMass, tipStiffness);
            setSi (values, Parameter::woodDensity, stick.woodDensity);
            values[indexOf (Parameter::tipMaterial)] = static_cast<float> (stick.tipMaterial);
        }

    private:
        bool isThere = false;
        double tipMass = 0.014, tipStiffness = 8.0e5;
    };

    /** False if there is no parameter with that key. */
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

} // namespace

StateReading readState (std::string_view document)
{
    StateReading reading;
    StateReader reader (reading);

    if (document.size() > largestState)
    {
        reader.fail ("The state is too large to be one that this plugin saved.");
        return reading;
    }

    try
    {
        reader.read (files::parseJson (document, "state"));
    }
    catch (const modal::InputError& e)
    {
        reading = {};
        reader.fail (std::string ("The state is damaged and was ignored: ") + e.what());
    }

    return reading;
}

std::string writeState (const State& state)
{
    Json document{ { "format", stateFormat }, { "version", stateVersion } };

    if (! state.name.empty())
        document["name"] = state.name;

    auto sound = asJson (state.live);
    sound.update (Json::parse (state.unknownInSound));
    document["sound"] = std::move (sound);

    for (std::size_t i = 0; i < state.snapshots.size(); ++i)
        if (state.snapshots[i])
            document[snapshotKey (i)] = asJson (*state.snapshots[i]);

    document.update (Json::parse (state.unknown));
    return files::written (std::move (document));
}

} // namespace plugin
