#pragma once

#include "Score.h"

namespace score
{

/** A roll: hands in turn, as even as a machine. */
struct Roll
{
    enum class Kind
    {
        singles, ///< one stroke a hand
        doubles, ///< two strokes a hand: an open roll
        buzzes   ///< each hand presses its stick into the head until the other lands: a closed roll
    };

    Kind kind = Kind::doubles;
    double start = 0.0;           ///< s, not negative
    double length = 1.0;          ///< s, above 0 to 60
    double handsPerSecond = 10.0; ///< motions of a hand a second, 2 to 25; an open roll sounds two strokes for each
    double firstSpeed = 2.0;      ///< m/s of the tip at the beginning, 0.01 to 12,
    double lastSpeed = 2.0;       ///< and at the end; in between by equal steps in level
    double position = 0.25;       ///< as a share of the radius, 0 to 0.98
    double handsApart = 0.5;      ///< rad between the places of the two hands on the head, 0 to 3
};

/** The strokes of a roll in order of time, all within its length.

    @throws modal::InputError for a value out of range */
Score strokesOf (const Roll&);

} // namespace score
