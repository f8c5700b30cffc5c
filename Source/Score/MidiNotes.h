#pragma once

#include "Engine/Stroke.h"

#include <array>

namespace score
{

/** Speed of the tip in m/s for a MIDI velocity 1 to 127: 0.25·40^((v-1)/126), from 0.25 m/s (a ghost note) to 10 m/s (as hard as
   arms allow). Equal steps of velocity are equal steps in level, about 0.25 dB each. Common practice, no source. */
double speedOfVelocity (int midiVelocity) noexcept;

/** Speed of a brush along the head in m/s for a MIDI velocity 1 to 127: 0.1·30^((v-1)/126), up to 3 m/s. Common practice, no source. */
double sweepSpeedOfVelocity (int midiVelocity) noexcept;

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

} // namespace score
