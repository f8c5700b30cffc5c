#pragma once

#include "Wish.h"

#include <functional>
#include <optional>

namespace finding
{

/** How the player plays this song. */
struct Hand
{
    double softest = 0.3; ///< m/s of the stick's tip, a ghost note; 0.01 to 10
    double usual = 3.0;   ///< m/s
    double loudest = 6.0; ///< m/s
    double place = 0.25;  ///< of the radius from the centre, 0 to 0.98
};

/** Throws modal::InputError unless the speeds rise from softest to loudest and are in range. */
void check (const Hand&);

/** The key of a song. */
struct Key
{
    int tonic = 0; ///< pitch class, 0 (C) to 11 (B)
    bool isMinor = false;

    /** Reads "D", "Bb major", "F# minor", "Dm". Throws modal::InputError on `field`. */
    static Key parse (const std::string& text, const std::string& field);

    /** "D minor". */
    std::string name() const;
};

/** Which tones of the key the drum note may stand on. */
enum class KeyTones
{
    tonic, ///< the first tone alone
    chord, ///< first, third and fifth
    scale  ///< all seven
};

/** What is known of a song; each part makes wishes that are shown and can be changed. */
struct Song
{
    std::optional<Key> key;
    KeyTones tones = KeyTones::chord;
    std::optional<double> bassNote;     ///< Hz, the bass's lowest or main note
    double overBass = 12.0;             ///< semitones from the bass to the drum note, any number of octaves apart
    std::optional<double> tempo;        ///< beats per minute, 20 to 400
    double ringValue = 0.125;           ///< of a whole note: the ring ends before the next eighth
    std::optional<Hand> hand;           ///< a softest stroke that the wires answer
    modal::ConcertPitch concertPitch{}; ///< for the notes of the key
};

/** The wishes that follow. All of them are common practice, no source, and say so in Wish::reason.

    @throws modal::InputError for a tempo, note value or hand out of range */
std::vector<Wish> wishesFor (const Song&);

/** Whether a wish of the song gives way to a stated one: to one about the same figure, and the ring to how long the note lasts in
   a place. */
bool givesWay (const Wish& ofSong, Figure stated);

/** Adds the song's wishes that do not give way to a stated one. @throws as wishesFor() */
void addSong (std::vector<Wish>&, const Song&, const std::function<bool (Figure)>& isStated);

/** Reads "1/8", "1/16", "1/4" as a share of a whole note, 1/64 to 4. Throws modal::InputError on `field`. */
double readNoteValue (const std::string& text, const std::string& field);

} // namespace finding
