#pragma once

#include "Hoop.h"
#include "Stick.h"
#include "Wires.h"

namespace modal
{

/** What a drum needs besides heads, air and tuning to be played. */
struct Fittings
{
    WireSpec wires;
    HoopSpec hoop; ///< both hoops
    StickSpec stick;
};

} // namespace modal
