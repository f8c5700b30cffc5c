#pragma once

#include "Engine/Stroke.h"

#include <cstdint>

namespace plugin
{

/** The user's choices for MIDI. */
struct MidiChoices
{
    int tuningChannel = 0;      ///< 1 to 16: notes on this channel tune the drum instead of striking it; 0: none
    bool allStrokes = true;     ///< false: only notes 37, 38 and 40 play
    int positionController = 0; ///< 1 to 119: moves the position of strokes; 0: none
    bool hasBrush = false;      ///< the drum is played with a brush
};

/** The action of a MIDI message. */
struct MidiAction
{
    enum class Kind
    {
        nothing,
        strike,   ///< `stroke` has kind, place and speed; see usesPlayersPosition. A sweep goes on until liftBrush
        liftBrush, ///< the note of a sweep has ended
        choke,    ///< a hand on the head
        silence,  ///< at once
        position, ///< `amount` 0 (centre) to 1 (edge): position of the following strokes
        pressure, ///< `amount` 0 to 1: how hard the stick is pressed in the following strokes
        tune,     ///< `note` becomes the batter note
        resetControllers
    };

    Kind kind = Kind::nothing;
    engine::Stroke stroke;
    bool usesPlayersPosition = false; ///< the stroke lands at the player's position, not at one of its own
    double amount = 0.0;
    int note = 0;
};

inline constexpr int chokeNote = 20; ///< a hand on the head

inline constexpr int pressureController = 17; ///< general purpose controller 2 of MIDI 1.0

/** Reads one MIDI 1.0 message. A note's length matters for a sweep only. Channel and key pressure press the stick, as controller 17 does; controllers 120 (all sound off)
 * and 121 (reset all controllers) work as in the standard. Anything else, or an invalid message, gives `nothing`. Realtime safe.
 */
MidiAction readMidi (const std::uint8_t* bytes, int size, const MidiChoices&) noexcept;

} // namespace plugin
