#include "Place.h"

#include "Reverberation.h"

#include "Modal/air/Absorption.h"

#include <algorithm>
#include <cmath>

namespace place
{
namespace
{
constexpr double closestToSide = 0.2; // m
constexpr double airsShare = 0.98;    // of the longest time that air allows: walls take the rest

/** What a position may be in a box of this size. */
modal::Range between (double low, double high)
{
    return { low + closestToSide, high - closestToSide, "m" };
}

std::string named (const std::string& owner, const char* name)
{
    return modal::nameInMessages (name, owner);
}
} // namespace

Box::Box (const Place& place)
    : height (std::cbrt (place.volume / (place.lengthToHeight * place.widthToHeight))),
      soundSpeed (modal::Air::from (place.weather).soundSpeed)
{
    length = place.lengthToHeight * height;
    width = place.widthToHeight * height;
    surface = 2.0 * (length * width + length * height + width * height);
}

Point drumIn (const Place& place, const Box& box) noexcept
{
    return { place.drumFromWall, 0.5 * box.width + place.drumAside, place.drumHeight };
}

Point listenerIn (const Place& place, const Box& box) noexcept
{
    return { place.drumFromWall + place.listenerDistance, 0.5 * box.width + place.listenerAside, place.listenerHeight };
}

double distance (const Point& a, const Point& b) noexcept
{
    return std::hypot (a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}

Octaves longestTimes (const Place& place)
{
    const Box box (place);
    Octaves times;
    for (std::size_t i = 0; i < times.size(); ++i)
        times[i] = airsShare * 60.0 / (box.soundSpeed * modal::airAbsorption (place.weather, octaveCentres[i]));
    return times;
}

void check (const Place& place, const std::string& owner)
{
    modal::checkNumbers (place, owner);
    modal::check (place.weather);

    const Box box (place);
    const double side = 0.5 * box.width;
    modal::requireInRange (place.drumFromWall, between (0.0, box.length), named (owner, "drum_from_wall"));
    modal::requireInRange (place.listenerDistance, { 0.5, box.length - closestToSide - place.drumFromWall, "m" },
                           named (owner, "listener_distance"));
    modal::requireInRange (place.drumAside, between (-side, side), named (owner, "drum_aside"));
    modal::requireInRange (place.listenerAside, between (-side, side), named (owner, "listener_aside"));
    modal::requireInRange (place.drumHeight, between (0.0, box.height), named (owner, "drum_height"));
    modal::requireInRange (place.listenerHeight, between (0.0, box.height), named (owner, "listener_height"));

    if (place.kind == Place::Kind::openAir)
        return;

    const auto longest = longestTimes (place);
    for (std::size_t i = 0; i < octaveCentres.size(); ++i)
        modal::requireInRange (place.times[i], { timeRange.low, std::min (timeRange.high, longest[i]), timeRange.unit },
                               named (owner, "reverberation") + " at " + modal::asText (octaveCentres[i]) + " Hz");
}

Place madePossible (Place place)
{
    const auto clampAll = [] (Place& p)
    {
        for (const auto& number : modal::numbersOf<Place>)
            p.*number.member = std::clamp (p.*number.member, number.low, number.high);
    };
    clampAll (place);

    // Room for a drum and a listener even in the smallest box.
    const Box box (place);
    const auto moveInto = [] (double& position, double low, double high)
    {
        const auto range = between (low, high);
        position = range.low < range.high ? std::clamp (position, range.low, range.high) : 0.5 * (low + high);
    };
    const double side = 0.5 * box.width, closest = modal::numberOf (&Place::listenerDistance).low;
    moveInto (place.drumFromWall, 0.0, box.length - closest);
    place.listenerDistance =
        std::min (place.listenerDistance, std::max (closest, box.length - closestToSide - place.drumFromWall));
    moveInto (place.drumAside, -side, side);
    moveInto (place.listenerAside, -side, side);
    moveInto (place.drumHeight, 0.0, box.height);
    moveInto (place.listenerHeight, 0.0, box.height);

    const auto longest = longestTimes (place);
    for (std::size_t i = 0; i < octaveCentres.size(); ++i)
        place.times[i] = std::clamp (place.times[i], timeRange.low, std::min (timeRange.high, longest[i]));
    return place;
}

} // namespace place
