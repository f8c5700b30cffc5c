#include "PlayedRoom.h"

#include "DrumRequest.h"

#include <algorithm>

namespace plugin
{

std::unique_ptr<place::Room> playedRoom (const Values& values, double sampleRate)
{
    const auto place = placeOf (values);
    return place ? std::make_unique<place::Room> (*place, siOf (values, Parameter::distantDistance), sampleRate) : nullptr;
}

double reverberationOf (const Values& values)
{
    const auto place = placeOf (values);
    const bool isRoom = place && place->kind == place::Place::Kind::room;
    return isRoom ? *std::max_element (place->times.begin(), place->times.end()) : 0.0;
}

} // namespace plugin
