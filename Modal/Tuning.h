#pragma once

#include "Modal/pitch/HeadNotes.h"
#include "Modal/pitch/Interval.h"
#include "Modal/pitch/Note.h"
#include "Solve.h"

#include <optional>
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

// One question to HeadNotes; for several, make one.
double tapNote (const DrumSpec&, HeadSide, double tension);
NoteRange tapNoteRange (const DrumSpec&, HeadSide);
double tensionForTapNote (const DrumSpec&, HeadSide, double hertz);
double semitoneTension (const DrumSpec&, HeadSide, double tension);

/** Tension at which the load-bearing film reaches its yield stress, N/m. */
double yieldTension (const HeadConstruction&);

/** The tensions that a tuning asks for on a drum. Throws InputError naming the head and the limit, or the drum notes that can be
    had: on an open shell they jump where the lowest mode becomes the air's, and none in between can be had. */
Tensions tensionsFor (const DrumSpec&, const Tuning&);

/** Tunes one drum again and again: the air loads of heads and drum are computed once, the tensions are those of tensionsFor().
   May be used from several threads. */
class DrumTuner
{
public:
    /** @throws InputError for a drum out of range */
    explicit DrumTuner (const DrumSpec&);

    Tensions tensionsFor (const Tuning&) const;

    const DrumSpec& drum() const noexcept { return solver.drum(); }

    /** The resonant head's only on a drum that has one. */
    const HeadNotes& notes (HeadSide side) const { return side == HeadSide::batter ? batter : resonant.value(); }

    /** See DrumSolver::drumNote(). */
    double drumNote (const Tensions& tensions) const { return solver.drumNote (tensions); }

private:
    DrumSolver solver;
    HeadNotes batter;
    std::optional<HeadNotes> resonant;

    Tensions at (const ByTapNotes&) const;
    Tensions at (const ByTension&) const;
    Tensions at (const ByDrumNote&) const;
    Tensions at (const ByDrumNoteAndHead&) const;
    std::vector<double> lugDeviations (HeadSide, double tension, const std::vector<double>& cents) const;
};

/** Frequency in Hz of the drum note: the lowest coupled mode in which the heads move. */
double drumNote (const DrumModes&);

} // namespace modal
