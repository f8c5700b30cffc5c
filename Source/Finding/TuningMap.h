#pragma once

#include "Figure.h"

#include "Modal/Tuning.h"

#include <atomic>
#include <functional>
#include <memory>
#include <optional>
#include <vector>

namespace finding
{

/** The heads as they are now, Hz; moves are counted from there. */
struct Present
{
    double batterNote = 0.0, resonantNote = 0.0;
};

/** How to solve the tunings of a map: up to 700 Hz, which leaves out no mode that its figures need. The drum note is within 4
   cents of what the whole band gives (FindTest.cpp). */
inline constexpr modal::SolveOptions mapBand{ .highestFrequency = 700.0, .extraFunctions = 4 };

/** The part of the plane of both tap notes that a map covers, Hz. */
struct MapArea
{
    modal::NoteRange batter, resonant;
};

/** What both heads of a drum can have: from a fiftieth of the tension at yield, below which a head is too slack to play (common
   practice, no source), to just below yield. */
MapArea areaOf (const modal::DrumTuner&);

/** One tuning of a map. */
struct MapPoint
{
    modal::Tensions tensions;
    double drumNote = 0.0; ///< Hz; 0: no drum note, the lowest mode is the air's
    double ring = 0.0;     ///< s, T60 of the drum note, wires off
};

/** Many tunings of one drum: every batter tap note with every resonant one, evenly spaced in pitch. Immutable once made.

    The resonant note is the batter's and the interval; a map over these is its view (see at()). */
class TuningMap
{
public:
    /** Solves all tunings.

        @param step      cents between neighbours, at most; the ends of the area are on the map
        @param threads   0: one per processor thread
        @param cancel    set it to end early: returns null
        @param progress  called with the share done, 0 to 1, from the calling thread; may be empty
        @throws modal::InputError for a drum without a resonant head */
    static std::shared_ptr<const TuningMap> make (const modal::DrumTuner&, const modal::DrumSolver&, const MapArea&, double step,
                                                  unsigned threads, const std::atomic<bool>& cancel,
                                                  const std::function<void (double)>& progress = {});

    /** Figures of a tuning, those of played strokes left out, between the solved ones (bilinear in pitch and in the figure's
       logarithm). NaN outside the map and beside tunings without a drum note. */
    Figures at (double batterNote, double resonantNote, const std::optional<Present>&) const;

    const MapArea& area() const noexcept { return whole; }
    const std::vector<double>& batterNotes() const noexcept { return batter; }     ///< Hz, ascending
    const std::vector<double>& resonantNotes() const noexcept { return resonant; } ///< Hz, ascending
    const MapPoint& point (std::size_t b, std::size_t r) const { return points[b * resonant.size() + r]; }

private:
    MapArea whole{};
    double batterYield = 0.0, resonantYield = 0.0; ///< N/m
    std::vector<double> batter, resonant;
    std::vector<MapPoint> points;
};

/** The same figures of one tuning, solved. Throws modal::InputError for notes that the heads cannot have. */
Figures figuresOf (const modal::DrumTuner&, const modal::DrumSolver&, double batterNote, double resonantNote,
                   const std::optional<Present>&);

/** Notes from one to another, evenly spaced in pitch by at most `step` cents, both ends among them. */
std::vector<double> notesBetween (modal::NoteRange, double step);

/** Where a value lies among ascending notes, evenly spaced in pitch: the index of the note below, and the share of the way to the
 * next. */
struct Place
{
    std::size_t below;
    double share;
};
std::optional<Place> placeIn (const std::vector<double>& notes, double hertz);

} // namespace finding
