#pragma once

#include "Figure.h"

#include "Modal/PrudentLimits.h"
#include "Modal/Tuning.h"

#include <atomic>
#include <functional>
#include <limits>
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

/** A solver for the tunings of a map: as high as its figures need, 700 Hz or the batter's highest tap note. The drum note is
   within 4 cents of what a band of 2 kHz gives (TuningMapTest.cpp). */
modal::DrumSolver solverFor (const modal::DrumTuner&);

/** Cents between the tunings of a map: 50; 100 for a muffled drum, which takes ten times as long to solve. */
double stepFor (const modal::DrumSpec&);

/** The part of the plane of both tap notes that a map covers, Hz. */
struct MapArea
{
    modal::NoteRange batter, resonant;

    bool contains (double batterNote, double resonantNote) const noexcept
    {
        return batterNote >= batter.lowest && batterNote <= batter.highest && resonantNote >= resonant.lowest &&
               resonantNote <= resonant.highest;
    }
};

/** What both heads of a drum can have: from modal::slackYieldShare, below which a head is too slack to play, to a share of
   the tension at yield, or to where the tap note jumps because the lowest (1,1) mode becomes the air's. */
MapArea areaOf (const modal::DrumTuner&, double batterStrength, double resonantStrength);

/** The same up to just below yield. */
MapArea areaOf (const modal::DrumTuner&);

/** The lowest mode of an order in which the heads move. */
struct LowestMode
{
    double frequency = std::numeric_limits<double>::infinity(); ///< Hz; infinite: none in the band
    double ring = 0.0;                                          ///< s, T60, wires off
};

/** One tuning of a map. The drum note is the lower of the (0,1) and the (1,1) mode; both are kept, for each varies smoothly from
   tuning to tuning while the lower of them jumps from one to the other. */
struct MapPoint
{
    modal::Tensions tensions;
    std::array<LowestMode, 2> lowest{}; ///< of order 0 and 1

    const LowestMode& drumNote() const noexcept { return lowest[lowest[0].frequency <= lowest[1].frequency ? 0 : 1]; }
};

/** Solves one tuning. */
MapPoint solved (const modal::DrumSolver&, const modal::Tensions&);

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

    /** A map of tunings that were solved one by one: for each batter note every resonant one. Those left out have no lowest modes
       and count as tunings without a drum note.
        @param batterNotes, resonantNotes  Hz, evenly spaced in pitch over the area */
    static std::shared_ptr<const TuningMap> fromPoints (const modal::DrumTuner&, const MapArea&, std::vector<double> batterNotes,
                                                        std::vector<double> resonantNotes, std::vector<MapPoint>);

    /** Figures of a tuning, those of played strokes left out, between the solved ones (bilinear in pitch and in the figure's
       logarithm). NaN outside the map and beside tunings without a drum note. */
    Figures at (double batterNote, double resonantNote, const std::optional<Present>&) const;

    /** The resonant head's note that gives a drum note with a batter's: the contour of equal drum note, Hz. None if it is not on
       the map. */
    std::optional<double> resonantNoteFor (double batterNote, double drumNote) const;

    const MapArea& area() const noexcept { return whole; }
    const std::vector<double>& batterNotes() const noexcept { return batter; }     ///< Hz, ascending
    const std::vector<double>& resonantNotes() const noexcept { return resonant; } ///< Hz, ascending
    const MapPoint& point (std::size_t b, std::size_t r) const { return points[indexOf (b, r)]; }

private:
    MapArea whole{};
    double batterYield = 0.0, resonantYield = 0.0; ///< N/m
    std::vector<double> batter, resonant;
    std::vector<MapPoint> points; ///< the resonant note runs fastest

    /** Of both tensions, then frequency and ring of the (0,1) and the (1,1) mode. */
    using Logarithms = std::array<double, 6>;
    std::vector<Logarithms> logarithms; ///< of the points

    std::size_t indexOf (std::size_t b, std::size_t r) const noexcept { return b * resonant.size() + r; }
};

/** The same figures of one tuning, solved. Throws modal::InputError for notes that the heads cannot have. */
Figures figuresOf (const modal::DrumTuner&, const modal::DrumSolver&, double batterNote, double resonantNote,
                   const std::optional<Present>&);

} // namespace finding
