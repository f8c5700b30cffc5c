#include "PlaceOptions.h"

#include "DrumOptions.h"
#include "OptionText.h"

#include "Files/DrumWords.h"
#include "Files/PartPresets.h"

#include <algorithm>

namespace tool
{

using place::Place;

namespace
{
/** "2m:0.3m:0.8m" to three numbers. */
void overrideThree (const Arguments& arguments, const char* option, const char* whatTheyAre,
                    const std::array<double Place::*, 3>& members, Place& place)
{
    const auto text = arguments.value (option);

    if (! text)
        return;

    const auto field = std::string ("--") + option;
    const auto parts = splitAt (*text, ':');

    if (parts.size() != members.size())
        throw modal::InputError (field, '"' + *text + '"', whatTheyAre);

    for (std::size_t i = 0; i < members.size(); ++i)
        place.*members[i] = files::readQuantity (parts[i], members[i],
                                                 field + ", " + modal::nameInMessages (modal::numberOf (members[i]).name, ""));
}

/** "3:2.2:1". */
void overrideShape (const Arguments& arguments, Place& place)
{
    const auto text = arguments.value ("room-shape");

    if (! text)
        return;

    const auto parts = splitAt (*text, ':');
    std::array<double, 3> sides{};

    if (parts.size() != sides.size())
        throw modal::InputError ("--room-shape", '"' + *text + '"',
                                 "length, width and height in proportion with colons between: 3:2.2:1");

    for (std::size_t i = 0; i < sides.size(); ++i)
        sides[i] = files::readQuantity (parts[i], files::Quantity::pureNumber, { 0.01, 1000.0 }, "--room-shape");

    place.lengthToHeight = sides[0] / sides[2];
    place.widthToHeight = sides[1] / sides[2];
}

/** "0.8s", or seven times for the octaves, "1.2 1.1 1.0 1.0 1.0 0.9 0.7 s". */
void overrideTimes (const Arguments& arguments, Place& place)
{
    auto text = arguments.value ("reverberation");

    if (! text)
        return;

    const std::string field = "--reverberation";
    const files::Quantity seconds{ "time", files::Quantity::time.units, true };
    std::vector<std::string> parts;

    for (const auto& part : splitAt (*text, ' '))
        if (part == "s" && ! parts.empty())
            parts.back() += " s";
        else if (! part.empty())
            parts.push_back (part);

    if (parts.size() != 1 && parts.size() != place.times.size())
        throw modal::InputError (
            field, '"' + *text + '"',
            "one time, or one for each octave from 125 Hz to 8 kHz: 0.8s, \"1.2 1.1 1.0 1.0 1.0 0.9 0.7 s\"");

    for (std::size_t i = 0; i < place.times.size(); ++i)
        place.times[i] =
            files::readQuantity (parts[std::min (i, parts.size() - 1)], seconds, files::limitsOf (place::timeRange), field);

    // A single time is for the middle of the band; air may allow less at the top.
    if (parts.size() == 1)
    {
        const auto longest = place::longestTimes (place);
        std::transform (place.times.begin(), place.times.end(), longest.begin(), place.times.begin(),
                        [] (double a, double b) { return std::min (a, b); });
    }

    place.kind = Place::Kind::room;
}

Place openPlace (const std::string& source)
{
    try
    {
        return files::openPlace (source, "--place");
    }
    catch (const modal::InputError& e)
    {
        throw e.field() == "--place" ? e.orAllowed ("; or none") : e;
    }
}
} // namespace

const OptionGroup& placeOptions()
{
    static const OptionGroup group{
        "The place where it is played and heard:",
        { { "place", "NAME|FILE|none",
            files::listed (files::namesOf (files::placePresets())) +
                ", or a place file;\nif not given, that of the drum file, or none" },
          { "room-volume", "1500m3", files::limitsText (&Place::volume) },
          { "room-shape", "3:2.2:1", "length, width and height in proportion" },
          { "reverberation", "0.8s",
            "reverberation time, or one for each octave from 125 Hz to 8 kHz:\n\"1.2 1.1 1.0 1.0 1.0 0.9 0.7 s\"" },
          { "drum-at", "2m:0.3m:0.8m", "from the wall behind the drum, to the listener's right of the centre line, and up" },
          { "listener-at", "8m:-0.9m:1.5m", "from the drum along the room, to the right of the centre line, and up" },
          { "noise-rating", "30", "usual background noise, NR, 0 to 100" } }
    };
    return group;
}

void overridePlace (const Arguments& arguments, std::optional<Place>& chosen)
{
    if (const auto source = arguments.value ("place"))
    {
        chosen.reset();

        if (*source != files::noneWord)
            chosen = openPlace (*source);
    }

    for (const auto* option : { "room-volume", "room-shape", "reverberation", "drum-at", "listener-at", "noise-rating" })
        if (arguments.has (option) && ! chosen)
        {
            if (arguments.has ("place"))
                throw modal::InputError::fault (std::string ("--") + option, "is given beside --place none", "one of the two");
            chosen.emplace();
        }

    if (! chosen)
        return;

    auto& place = *chosen;
    if (const auto weather = weatherAsked (arguments))
        place.weather = *weather;
    overrideNumber (arguments, "room-volume", &Place::volume, place);
    overrideShape (arguments, place);
    overrideTimes (arguments, place);
    overrideThree (arguments, "drum-at", "distance from the wall, to the right, and up, with colons between: 2m:0.3m:0.8m",
                   { &Place::drumFromWall, &Place::drumAside, &Place::drumHeight }, place);
    overrideThree (arguments, "listener-at", "distance from the drum, to the right, and up, with colons between: 8m:-0.9m:1.5m",
                   { &Place::listenerDistance, &Place::listenerAside, &Place::listenerHeight }, place);
    overrideNumber (arguments, "noise-rating", &Place::noiseRating, place);

    try
    {
        place::check (place);
    }
    catch (const modal::InputError& e)
    {
        throw e.of ("place, " + e.field());
    }
}

} // namespace tool
