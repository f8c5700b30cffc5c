#pragma once

#include "Modal/DrumNumbers.h"

#include <array>
#include <string>
#include <vector>

namespace place
{

/** Middle frequencies, Hz, of the octaves in which a place is described. */
inline constexpr std::array<double, 7> octaveCentres{ 125.0, 250.0, 500.0, 1000.0, 2000.0, 4000.0, 8000.0 };

/** A number for each of these octaves. */
using Octaves = std::array<double, octaveCentres.size()>;

/** Where the drum is played and heard: a box-shaped room, or the open air, where only the ground reflects.

    The room is as long as from the wall behind the drum to the wall opposite. The listener is in front of the drum along the
   length. Lengths in m. In the open air the box only bounds the positions. */
struct Place
{
    enum class Kind
    {
        room,
        openAir
    };

    std::string name;
    Kind kind = Kind::room;
    double volume = 1000.0;      ///< m³
    double lengthToHeight = 3.0; ///< the box's proportions
    double widthToHeight = 2.2;
    double drumFromWall = 2.0;     ///< from the wall behind the drum
    double drumAside = 0.3;        ///< from the centre line; positive is the listener's right
    double drumHeight = 0.8;       ///< of the batter head above the floor
    double listenerDistance = 8.0; ///< from the drum, along the room
    double listenerAside = -0.9;
    double listenerHeight = 1.5;
    double noiseRating = 30.0; ///< usual background noise, NR curve of ISO/R 1996
    modal::Weather weather;    ///< air in the room

    /** Reverberation time in each octave, s; not used in the open air. */
    Octaves times{ 0.8, 0.8, 0.8, 0.8, 0.8, 0.75, 0.65 };
};

/** Reverberation times that may be asked for. Air may allow less in the highest octaves: see check(). */
inline constexpr modal::Range timeRange{ 0.1, 15.0, "s" };

/** The box of a place and what follows from it. */
struct Box
{
    double length, width, height; ///< m
    double surface;               ///< m², of all six sides
    double soundSpeed;            ///< m/s

    explicit Box (const Place&);
};

/** A point in the box: from the wall behind the drum, from the wall on the listener's left as they face the drum, above the
 * floor; m. */
using Point = std::array<double, 3>;
Point drumIn (const Place&, const Box&) noexcept;
Point listenerIn (const Place&, const Box&) noexcept;
double distance (const Point&, const Point&) noexcept;

/** Longest reverberation time that the air alone allows in each octave of a room, s. */
Octaves longestTimes (const Place&);

/** Throws modal::InputError if a number is out of range, drum or listener stand outside the box (or nearer than 0.2 m to a side),
   or a time is longer than the air allows. Names of fields begin with `owner`. */
void check (const Place&, const std::string& owner = {});

/** The same place, with drum and listener moved into the box and times cut to what the air allows. */
Place madePossible (Place);

} // namespace place

namespace modal
{

template <>
inline constexpr auto numbersOf<place::Place> = std::to_array<Number<place::Place>> ({
    { "volume", "of the room", Dimension::volume, &place::Place::volume, 10.0, 2.0e6 },
    { "length_to_height", "of the room", Dimension::ratio, &place::Place::lengthToHeight, 0.3, 20.0 },
    { "width_to_height", "of the room", Dimension::ratio, &place::Place::widthToHeight, 0.3, 20.0 },
    { "drum_from_wall", "the wall behind the drum", Dimension::length, &place::Place::drumFromWall, 0.2, 200.0 },
    { "drum_aside", "off the centre line", Dimension::length, &place::Place::drumAside, -100.0, 100.0 },
    { "drum_height", "above the floor", Dimension::length, &place::Place::drumHeight, 0.2, 10.0 },
    { "listener_distance", "from the drum, along the room", Dimension::length, &place::Place::listenerDistance, 0.5, 300.0 },
    { "listener_aside", "off the centre line", Dimension::length, &place::Place::listenerAside, -100.0, 100.0 },
    { "listener_height", "above the floor", Dimension::length, &place::Place::listenerHeight, 0.2, 50.0 },
    { "noise_rating", "usual background noise, NR", Dimension::ratio, &place::Place::noiseRating, 0.0, 100.0 },
});

} // namespace modal
