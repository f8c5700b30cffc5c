#pragma once

#include "Engine/Stroke.h"

#include <cstdint>

namespace plugin
{

/** How MIDI is understood. */
struct MidiChoices
{
    int tuningChannel = 0;  ///< 1 to 16: notes on it tune the drum instead of striking it; 0: none does
    bool allStrokes = true; ///< false: only General MIDI's three snare notes play
};

/** What a MIDI message asks for. */
struct MidiAction
{
    enum class Kind
    {
        nothing,
        strike,   ///< `stroke` has kind, place and speed; see usesPlayersPlace
        choke,    ///< a hand on the head
        silence,  ///< at once
        place,    ///< `amount` 0 (middle) to 1 (edge): where strokes land from now on
        pressure, ///< `amount` 0 to 1: how hard the stick is pressed from now on
        tune,     ///< `note` becomes the batter note
        forget    ///< controllers back to rest
    };

    Kind kind = Kind::nothing;
    engine::Stroke stroke;
    bool usesPlayersPlace = false; ///< the stroke lands where the player is, not at a place of its own
    double amount = 0.0;
    int note = 0;
};

inline constexpr int chokeNote = 20;          ///< a hand on the head
inline constexpr int placeController = 16;    ///< General Purpose Controller 1 (MIDI 1.0)
inline constexpr int pressureController = 17; ///< General Purpose Controller 2

/** Reads one MIDI 1.0 message. Channel pressure and key pressure press the stick as controller 17 does; controllers 120 (all
   sound off) and 121 (reset all controllers) do what the standard says. Realtime safe; anything else, broken or foreign, is
   nothing. */
MidiAction readMidi (const std::uint8_t* bytes, int size, const MidiChoices&) noexcept;

} // namespace plugin
