#pragma once

#include "PlayLike/PlayLike.h"

namespace plugin
{

/** The model set to ring and rattle as the last strike does, and both strokes one after the other at equal loudness. */
struct PlayedLike
{
    playlike::Likeness likeness;
    listening::Recording sideBySide;
};

} // namespace plugin
