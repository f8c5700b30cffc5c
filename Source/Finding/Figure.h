#pragma once

#include "Modal/pitch/Note.h"

#include <array>
#include <string>

/** The tuning for a wish: many tunings of one drum at once, and which of them gives what is wanted. */
namespace finding
{

/** What can be predicted of a tuning and wished for. */
enum class Figure
{
    drumNote,       ///< Hz
    ring,           ///< s, T60 of the drum note, wires off
    lasts,          ///< s, the same at the listener of a place
    interval,       ///< semitones, resonant over batter
    batterNote,     ///< Hz, tap note
    resonantNote,   ///< Hz, tap note
    batterMove,     ///< semitones, of the batter's tap note from where it is; negative: down
    resonantMove,   ///< semitones
    batterStrength, ///< stress over yield strength, 0 to 1
    resonantStrength,
    softestStroke, ///< m/s, the softest stroke at the player's place that the wires answer
    dryness,       ///< dB, the first 50 ms over the rest
    brightness,    ///< Hz, of the attack
    contactTime,   ///< s, of the stick on the head
    snareSound,    ///< s to -60 dB, of the sound above 2 kHz
    wiresCarry,    ///< m from the drum, as far as the wires of the usual stroke are clear and heard in a place
};

inline constexpr std::size_t figureCount = 16;

/** The figures of one tuning; NaN: not known. */
using Figures = std::array<double, figureCount>;

inline double& of (Figures& figures, Figure figure)
{
    return figures[static_cast<std::size_t> (figure)];
}
inline double of (const Figures& figures, Figure figure)
{
    return figures[static_cast<std::size_t> (figure)];
}

/** How a figure is said and compared. */
struct FigureInfo
{
    Figure figure;
    const char* name;    ///< "drum note"
    const char* option;  ///< of the program, without dashes
    const char* jsonKey; ///< "drum_note_hz"
    const char* meaning; ///< for help and hints
    enum class Kind
    {
        note, ///< Hz, said as a note
        semitones,
        share, ///< said in %
        decibels,
        time,      ///< s
        frequency, ///< Hz
        speed,     ///< m/s
        distance   ///< m
    } kind;
    double low, high; ///< that may be asked for, in the units of Figure
    bool isPlayed;    ///< needs strokes to be played
    bool isInPlace;   ///< needs a place
};

const std::array<FigureInfo, figureCount>& figures();
const FigureInfo& infoOf (Figure);

/** How far apart two values of a figure are, in steps of a size that compare: 100 are a semitone, a ratio of 6 %, or a decibel.
   Positive if `to` is larger. */
double stepsBetween (Figure, double from, double to);

/** A value that many steps away from another: the inverse of stepsBetween(). */
double atSteps (Figure, double from, double steps);

/** "D3 +12", "0.41 s", "major third", "35 %". */
std::string textOf (Figure, double value, modal::ConcertPitch);

/** A distance between two values: "18 cents too high", "0.12 s too long". Empty if they are equal. */
std::string missText (Figure, double value, double limit);

/** A move of a head: "+1.5 semitones", "stays". */
std::string moveText (double semitones);

} // namespace finding
