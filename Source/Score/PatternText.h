#pragma once

#include "Score.h"

#include "Modal/InputError.h"

#include <string>

namespace score
{

inline constexpr modal::Range tempoRange{ 20.0, 400.0, "beats per minute" };

/** Tempo of a pattern. */
struct PatternTempo
{
    double beatsPerMinute = 100.0; ///< 20 to 400
    int stepsPerBeat = 4;          ///< steps of the text per beat, 1 to 16
};

/** Reads a pattern written as text, one letter per step:

        o   off centre        c   centre           h   half way to the edge     e   edge
        r   rimshot           k   cross-stick      z   buzz                     d   double stroke
        s   sweep in a circle w   sweep straight across (both with a brush)     -   the sweep goes on for a step
        .   rest              |   bar line, takes no time                       space, line break: nothing

    A digit 1 (ghost note) to 9 (loudest) after a stroke sets its dynamic; the default is 6. A backbeat with ghost notes is
   "....o7..o2....o7.o2". Upper case equals lower case.

    @throws modal::InputError on `field`, with the position of the first unknown letter, for a text without strokes, and for a
   tempo out of range
*/
Score readPattern (const std::string& text, const PatternTempo&, const std::string& field);

/** Length of a pattern, s: all its steps. */
double patternLength (const std::string& text, const PatternTempo&);

} // namespace score
