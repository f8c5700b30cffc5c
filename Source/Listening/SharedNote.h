#pragma once

#include "Fitting/Lines.h"

#include <string_view>

/** The note that the taps of a lug check share. */
namespace listening
{

/** Which of the notes that taps share is the head's tap note.

    The tap note is the (1,1) of the head over a closed cavity. The (0,1) may lie below it and be as loud, but radiates more and
    fades sooner. By the solver, for the drums that come with the program at tap notes from E3 to E4, one head over a closed
    cavity: (2,1) lies 1.40 to 1.47 times as high as (1,1) and rings 0.76 to 1.04 times as long; (0,1) rings at most 0.58 times
    as long as (1,1). */
struct SharedNote
{
    enum class Kind
    {
        none,    ///< the taps share no note
        tapNote, ///< the (1,1), by its ring and by the (2,1) above it
        lowest,  ///< the lowest loud note, which rings on though another has the pattern of a (1,1): if both heads ring, the drum note
        either,  ///< `frequency` or `other`: the ring of the lower one does not tell
        unknown  ///< the lowest loud note; no note has the pattern of a (1,1)
    };

    Kind kind = Kind::none;
    double frequency = 0.0; ///< Hz
    double other = 0.0;     ///< Hz, the lower of the two for `either`, otherwise 0
};

/** "tap_note": the kind's name in files. */
std::string_view nameOf (SharedNote::Kind);

/** @param lines  see commonLines() */
SharedNote sharedNote (const std::vector<fitting::Line>& lines);

} // namespace listening
