#pragma once

#include "Modal/pitch/Interval.h"
#include "Modal/pitch/Note.h"
#include "Solve.h"

#include <string>
#include <variant>
#include <vector>

namespace modal
{

/** Tune by the tension of each head, N/m. */
using ByTension = Tensions;

/** Tune by each head's tap note in Hz. `resonant` is ignored without a resonant head. */
struct ByTapNotes
{
    double batter = 0.0;
    double resonant = 0.0;
};

/** Tune so that the finished drum sounds `drumNote` (Hz) with the heads an interval apart. */
struct ByDrumNote
{
    double drumNote = 0.0;
    Interval interval;
};

/** Tune so that the finished drum sounds `drumNote` (Hz) while one head keeps its tap note: the other head is solved for. Needs a
    resonant head. */
struct ByDrumNoteAndHead
{
    double drumNote = 0.0;
    HeadSide held = HeadSide::resonant;
    double heldNote = 0.0; ///< Hz, tap note of the held head
};

/** How uneven each head is: for each lug, by how many cents a tap beside it sounds above the head's tap note. Lug 1 is at angle
   0; the others follow clockwise, seen from above, as all angles of the model do. Empty: even. -300 to 300 cents each. */
struct LugCents
{
    std::vector<double> batter, resonant;
};

/** What a person asks for. */
struct Tuning
{
    std::string name;
    std::variant<ByTapNotes, ByTension, ByDrumNote, ByDrumNoteAndHead> target;
    LugCents lugs{};
    ConcertPitch concertPitch; ///< for naming notes; the target's frequencies are already in Hz
};

/** Tap note in Hz of one head at a tension: its (1,1) frequency with air, cavity closed, the other head held still. */
double tapNote (const DrumSpec&, HeadSide, double tension);

/** Tap notes that a head can have, Hz: from all but slack to yield. */
struct NoteRange
{
    double lowest, highest;
};
NoteRange tapNoteRange (const DrumSpec&, HeadSide);

/** The tension in N/m that gives a head a tap note. Inverse of tapNote(). Throws InputError if no tension below the head's
    yield does, or none comes within a cent; the message gives the notes that can be had. */
double tensionForTapNote (const DrumSpec&, HeadSide, double hertz);

/** The same, but for a note in a gap, where the tap note jumps as the lowest (1,1) mode becomes the air's, the tension at which
    it does: without gaps and rising with the note, for searches. */
double tensionNearTapNote (const DrumSpec&, HeadSide, double hertz);

/** Relative rise of tension that raises a head's tap note by a semitone: 0.122 in vacuo, more where the cavity holds the note
 * back. */
double semitoneTension (const DrumSpec&, HeadSide, double tension);

/** Tension at which the load-bearing film reaches its yield stress, N/m. */
double yieldTension (const HeadConstruction&);

/** The tensions that a tuning asks for on a drum. Throws InputError naming the head and the limit, or the drum notes that can be
    had: on an open shell they jump where the lowest mode becomes the air's, and none in between can be had. */
Tensions tensionsFor (const DrumSpec&, const Tuning&);

/** Frequency in Hz of the drum note: the lowest coupled mode in which the heads move. */
double drumNote (const DrumModes&);

} // namespace modal
