#pragma once

#include "Score.h"

#include <string>

namespace score
{

/** How fast a pattern runs. */
struct PatternTempo
{
    double beatsPerMinute = 100.0; ///< 20 to 400
    int stepsPerBeat = 4;          ///< 1 to 16: how many steps of the text make a beat
};

/** Reads a pattern written as text, one step a letter:

        o   off centre        c   centre           h   half way to the edge     e   edge
        r   rimshot           k   cross-stick      z   buzz                     d   double stroke
        .   rest              |   bar line, takes no time                       space, line break: nothing

    A digit 1 (a ghost) to 9 (as hard as it goes) after a stroke sets how hard it is; without one it is 6. So a backbeat with
   ghosts is
    "....o7..o2....o7.o2". Upper case is read like lower case.

    @throws modal::InputError on `field`, with the place of the first letter that means nothing, for a text without strokes, and
   for a tempo out of range
*/
Score readPattern (const std::string& text, const PatternTempo&, const std::string& field);

/** Length of a pattern, s: all its steps. */
double patternLength (const std::string& text, const PatternTempo&);

} // namespace score
