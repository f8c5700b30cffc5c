#pragma once

#include "Place.h"

namespace place
{

/** One path of the sound from the drum to the listener: straight, or by reflections, when it seems to come from an image of the
   drum behind the sides (Allen & Berkley, JASA 65 (1979) 943). */
struct Image
{
    double distance; ///< m, travelled
    int reflections; ///< 0 is the drum itself
    Point from;      ///< unit vector from the listener to where it comes from
};

/** The `count` shortest paths in a room and the next one, with which all others begin, shortest first; in the open air those from
   the drum and from its image in the ground. */
std::vector<Image> images (const Place&, std::size_t count);

} // namespace place
