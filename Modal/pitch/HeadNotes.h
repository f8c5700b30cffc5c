#pragma once

#include "Modal/DrumSpec.h"
#include "NoteSearch.h"

#include <memory>

namespace modal
{

struct OrderProblem;

/** Tap notes that a head can have, Hz: from all but slack to yield. */
struct NoteRange
{
    double lowest, highest;
};

/** The tap notes of one head of a drum, for any number of tensions: its air load is computed once. May be used from several
 * threads. */
class HeadNotes
{
public:
    HeadNotes (const DrumSpec&, HeadSide);

    /** Tap note in Hz at a tension in N/m: the (1,1) frequency with air, cavity closed, the other head held still. */
    double at (double tension) const;

    NoteRange range() const noexcept { return notes; }

    /** The tension in N/m that gives a tap note. Inverse of at(). Throws InputError if no tension below the head's yield does, or
        none comes within a cent; the message gives the notes that can be had. */
    double tensionFor (double hertz) const;

    /** The same, but for a note in a gap, where the tap note jumps as the lowest (1,1) mode becomes the air's, the tension at
       which it does: without gaps and rising with the note, for searches. */
    double tensionNear (double hertz) const;

    /** Relative rise of tension that raises the tap note by a semitone: 0.122 in vacuo, more where the cavity holds the note
     * back. */
    double semitoneTension (double tension) const;

private:
    HeadSide side;
    DrumSpec single; ///< this head as the batter of a closed drum
    std::shared_ptr<const OrderProblem> problem;
    NoteRange notes{};

    NoteSearch searchFor (double hertz) const;
    void requireInRange (double hertz) const;
};

} // namespace modal
