#pragma once

#include "PlayedMap.h"
#include "TuningMap.h"
#include "Wish.h"

#include <cstdint>

namespace finding
{

inline constexpr std::size_t mostWishes = 24, mostFound = 5;

/** A tuning on the list. */
struct FoundTuning
{
    std::string kind;                            ///< what sets it apart: "least to turn", "gives up the ring"
    double batterNote = 0.0, resonantNote = 0.0; ///< Hz, tap notes
    Figures figures{};                           ///< solved, and played if Ground::played is there
    std::vector<double> misses;                  ///< of each wish, missOf()

    bool meetsAll() const;
};

/** Wishes that no tuning of the drum meets together, or one that none meets. */
struct Conflict
{
    std::vector<std::size_t> wishes; ///< indices
    /** For each of them, the nearest that it can come (a value of its figure) while the others are met; for one wish alone the
       nearest at all. NaN where the figure is not known. */
    std::vector<double> nearest;
};

struct FindResult
{
    std::vector<FoundTuning> list;   ///< at most mostFound, different in kind
    bool areAllMet = false;          ///< by the tunings on the list
    std::vector<Conflict> conflicts; ///< the smallest sets of wishes that exclude each other; empty if all are met together
};

/** Where to look. */
struct Ground
{
    const modal::DrumTuner& tuner;
    const modal::DrumSolver& solver; ///< solverFor (tuner)
    const TuningMap& map;
    const PlayedMap* played = nullptr;            ///< needed for wishes on played figures
    std::optional<MapArea> within;                ///< the part of the map to look at; all of it if there is none
    std::optional<Present> present;               ///< needed for wishes on moves; "least to turn" counts from there
    const place::NoteAtListener* place = nullptr; ///< needed for wishes on how long the drum note lasts there
};

/** Adds what played strokes and a place tell of a tuning to what the map knows; either may be null. */
void addBeyondMap (Figures&, double batterNote, double resonantNote, const PlayedMap*, const place::NoteAtListener*);

/** All that is known of a tuning without solving it; batter's and resonant head's tap notes in Hz. */
Figures figuresAt (const Ground&, double batterNote, double resonantNote);

/** Where to look for tunings that meet the wishes: in the prudent part, and in all of it of a head about whose stress there is a wish. */
MapArea areaFor (const std::vector<Wish>&, const MapArea& whole, const MapArea& prudent);

/** Whether one of the wishes is about this figure. */
bool isWished (const std::vector<Wish>&, Figure);

/** True if one of the wishes needs strokes to be played. */
bool needsPlaying (const std::vector<Wish>&);

/** Looks for tunings that meet the wishes: over the map in steps of 5 cents, then solved around each find.

    If some meet all wishes, the list shows different ones among them. If none does, it shows for each wish a tuning that comes as
    near to it as this drum can and misses the others by the least, those that meet all other wishes first, and the
    best compromise; and `conflicts` says which wishes exclude each other.

    @throws modal::InputError for too many wishes, or wishes that need what `ground` lacks */
FindResult find (const Ground&, const std::vector<Wish>&);

/** Which tunings of the map meet every wish; for masks in pictures. */
bool meetsAll (const Figures&, const std::vector<Wish>&);

/** Conflicts as sentences: "No tuning of this drum has both ring at most 300 ms and drum note D3 to E3: with the drum note the
   ring is 410 ms, 110 ms too long." */
std::vector<std::string> explain (const FindResult&, const std::vector<Wish>&, modal::ConcertPitch);

} // namespace finding
