#pragma once

#include "Score.h"

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace score
{

/** Speed of a stroke in m/s for a MIDI velocity v, 1 to 127. Of the tip: 0.25·40^((v-1)/126), from 0.25 m/s (a ghost note) to 10 m/s (as
   hard as arms allow); equal steps of velocity are equal steps in level, about 0.25 dB each. Of a sweep, along the head: 0.1·30^((v-1)/126), up
   to 3 m/s. Common practice, no source. */
double speedOfVelocity (int midiVelocity, engine::StrokeKind = engine::StrokeKind::tip) noexcept;

/** The stroke that a MIDI note plays. */
struct StrokeNote
{
    int note;
    engine::StrokeKind kind;
    double position; ///< share of the radius
    bool sweepsStraight = false;
};

/** General MIDI's side stick (37) and acoustic snare (38); the rimshot on 40, which is common practice (General MIDI calls that
   note electric snare); and our own notes 18, 19 and 21 to 26 for the rest. These lie below the percussion of General MIDI (35 to 81) and of
   its level 2 (27 to 87), so that the track of a whole kit plays only the snare's notes. */
const std::array<StrokeNote, 11>& strokeNotes() noexcept;

/** The MIDI velocity, 1 to 127, whose speed is nearest for this kind of stroke. */
int velocityOfSpeed (double speed, engine::StrokeKind = engine::StrokeKind::tip) noexcept;

/** The note that plays this kind of stroke, nearest to this place (share of the radius). */
int noteForStroke (engine::StrokeKind, double position) noexcept;

/** Sets kind, position and speed for a note; false if the note plays nothing. Realtime safe.

    With a brush, note 40 sweeps in a circle, as in the brush set of General MIDI level 2 (tap 38, slap 39, swirl 40, from memory), of which 39 is
    left to the kit's hand clap. */
bool strokeForNote (int note, int velocity, engine::Stroke&, bool hasBrush = false) noexcept;

/** A note of a MIDI file. */
struct MidiNote
{
    double time = 0.0; ///< s from the beginning
    int number = 38;
    int velocity = 90;            ///< 1 to 127
    std::optional<double> held{}; ///< s until the note ends, where the file says so
};

/** Strokes that were read from a file or a text, and remarks about notes that were left out. */
struct StrokesRead
{
    Score strokes;
    std::vector<std::string> remarks;
};

/** What MIDI notes play on a drum that is struck with a stick or a brush. Notes without a stroke are left out with a remark; a sweep lasts as
    long as its note is held. @throws modal::InputError on `field` where no note plays a stroke */
StrokesRead strokesOfNotes (const std::vector<MidiNote>&, bool hasBrush, const std::string& field);

} // namespace score
