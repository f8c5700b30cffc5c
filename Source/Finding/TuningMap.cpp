#include "TuningMap.h"

#include "Parallel.h"

#include "Modal/InputError.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace finding
{

using namespace modal;

namespace
{

constexpr double unknown = std::numeric_limits<double>::quiet_NaN();

/** Figures that follow from the notes, tensions and lowest mode of a tuning. */
Figures figuresFrom (double batterNote, double resonantNote, const MapPoint& point, double batterYield, double resonantYield,
                     const std::optional<Present>& present)
{
    Figures result;
    result.fill (unknown);
    const auto& lowest = point.drumNote();
    of (result, Figure::drumNote) = std::isfinite (lowest.frequency) ? lowest.frequency : unknown;
    of (result, Figure::ring) = std::isfinite (lowest.frequency) ? lowest.ring : unknown;
    of (result, Figure::interval) = centsBetween (batterNote, resonantNote) / 100.0;
    of (result, Figure::batterNote) = batterNote;
    of (result, Figure::resonantNote) = resonantNote;
    of (result, Figure::batterStrength) = point.tensions.batter / batterYield;
    of (result, Figure::resonantStrength) = point.tensions.resonant / resonantYield;

    if (present)
    {
        of (result, Figure::batterMove) = centsBetween (present->batterNote, batterNote) / 100.0;
        of (result, Figure::resonantMove) = centsBetween (present->resonantNote, resonantNote) / 100.0;
    }

    return result;
}

void requireTwoHeads (const DrumSpec& drum)
{
    if (! drum.hasResonantHead())
        throw InputError ("drum", "one without a resonant head", "a drum with two heads: the map goes over the notes of both");
}

NoteRange usable (const HeadNotes& head, double yield, double taut)
{
    constexpr double slack = modal::slackYieldShare;
    constexpr int steps = 60;
    constexpr double jump = 1.1; // the tap note rises by a thirtieth a step
    NoteRange range{ head.at (slack * yield), head.at (slack * yield) };

    // It ends where the tap note jumps, as the lowest (1,1) mode becomes the air's: no note in the gap can be tuned.
    for (int i = 1; i <= steps; ++i)
    {
        const double note = head.at (slack * yield * std::pow (taut / slack, static_cast<double> (i) / steps));

        if (note > jump * range.highest)
            break;

        range.highest = note;
    }

    return range;
}

} // namespace

MapPoint solved (const DrumSolver& solver, const Tensions& tensions)
{
    MapPoint point{ tensions };

    for (const auto& mode : solver.solve (tensions).modes)
        if (! mode.isAirMode && mode.m < static_cast<int> (point.lowest.size()))
            if (auto& lowest = point.lowest[static_cast<std::size_t> (mode.m)]; mode.frequency < lowest.frequency)
                lowest = { mode.frequency, mode.decay.t60() };

    return point;
}

DrumSolver solverFor (const DrumTuner& tuner)
{
    SolveOptions options;
    options.highestFrequency = std::max (700.0, 1.1 * tuner.notes (HeadSide::batter).range().highest);
    options.extraFunctions = 4;
    return DrumSolver (tuner.drum(), options);
}

double stepFor (const DrumSpec& drum)
{
    return drum.muffling.empty() ? 50.0 : 100.0;
}

MapArea areaOf (const DrumTuner& tuner, double batterStrength, double resonantStrength)
{
    requireTwoHeads (tuner.drum());
    return { usable (tuner.notes (HeadSide::batter), yieldTension (tuner.drum().batter), batterStrength),
             usable (tuner.notes (HeadSide::resonant), yieldTension (tuner.drum().resonant), resonantStrength) };
}

MapArea areaOf (const DrumTuner& tuner)
{
    constexpr double taut = 0.999;
    return areaOf (tuner, taut, taut);
}

std::vector<double> notesBetween (NoteRange range, double step)
{
    const double cents = centsBetween (range.lowest, range.highest);
    const int steps = std::max (1, static_cast<int> (std::ceil (cents / step - 1.0e-9)));
    std::vector<double> notes;

    for (int i = 0; i <= steps; ++i)
        notes.push_back (range.lowest * std::exp2 (cents * i / steps / 1200.0));

    return notes;
}

std::optional<Place> placeIn (const std::vector<double>& notes, double hertz)
{
    constexpr double rounding = 1.0e-9;

    if (! (hertz >= notes.front() * (1.0 - rounding) && hertz <= notes.back() * (1.0 + rounding)))
        return std::nullopt;

    const double steps = static_cast<double> (notes.size() - 1);
    const double position =
        std::clamp (steps * std::log (hertz / notes.front()) / std::log (notes.back() / notes.front()), 0.0, steps);
    const auto below = std::min (static_cast<std::size_t> (position), notes.size() - 2);
    return Place{ below, position - static_cast<double> (below) };
}

std::shared_ptr<const TuningMap> TuningMap::make (const DrumTuner& tuner, const DrumSolver& solver, const MapArea& area,
                                                  double step, unsigned threads, const std::atomic<bool>& cancel,
                                                  const std::function<void (double)>& progress)
{
    requireTwoHeads (tuner.drum());
    auto batter = notesBetween (area.batter, step), resonant = notesBetween (area.resonant, step);
    const auto columns = batter.size(), rows = resonant.size();
    std::vector<double> batterTensions (columns), resonantTensions (rows);

    inParallel (
        columns + rows, threads,
        [&] (std::size_t i)
        {
            if (i < columns)
                batterTensions[i] = tuner.notes (HeadSide::batter).tensionNear (batter[i]);
            else
                resonantTensions[i - columns] = tuner.notes (HeadSide::resonant).tensionNear (resonant[i - columns]);
        },
        cancel);

    std::vector<MapPoint> points (columns * rows);
    inParallel (
        columns * rows, threads,
        [&] (std::size_t i) {
            points[i] = solved (solver, { batterTensions[i / rows], resonantTensions[i % rows] });
        },
        cancel,
        [&] (std::size_t done)
        {
            if (progress)
                progress (static_cast<double> (done) / static_cast<double> (columns * rows));
        });

    return cancel ? nullptr : fromPoints (tuner, area, std::move (batter), std::move (resonant), std::move (points));
}

std::shared_ptr<const TuningMap> TuningMap::fromPoints (const DrumTuner& tuner, const MapArea& area,
                                                        std::vector<double> batterNotes, std::vector<double> resonantNotes,
                                                        std::vector<MapPoint> solvedPoints)
{
    auto map = std::make_shared<TuningMap>();
    map->whole = area;
    map->batterYield = yieldTension (tuner.drum().batter);
    map->resonantYield = yieldTension (tuner.drum().resonant);
    map->batter = std::move (batterNotes);
    map->resonant = std::move (resonantNotes);
    map->points = std::move (solvedPoints);

    for (const auto& p : map->points)
        map->logarithms.push_back ({ std::log (p.tensions.batter), std::log (p.tensions.resonant),
                                     std::log (p.lowest[0].frequency), std::log (p.lowest[0].ring),
                                     std::log (p.lowest[1].frequency), std::log (p.lowest[1].ring) });

    return map;
}

Figures TuningMap::at (double batterNote, double resonantNote, const std::optional<Present>& present) const
{
    const auto b = placeIn (batter, batterNote), r = placeIn (resonant, resonantNote);

    if (! b || ! r)
    {
        Figures none;
        none.fill (unknown);
        return none;
    }

    const std::array<std::size_t, 4> corners{ indexOf (b->below, r->below), indexOf (b->below + 1, r->below),
                                              indexOf (b->below, r->below + 1), indexOf (b->below + 1, r->below + 1) };
    const std::array<double, 4> shares{ (1.0 - b->share) * (1.0 - r->share), b->share * (1.0 - r->share),
                                        (1.0 - b->share) * r->share, b->share * r->share };
    Logarithms sum{};

    for (std::size_t i = 0; i < corners.size(); ++i)
        if (shares[i] > 0.0)
            for (std::size_t k = 0; k < sum.size(); ++k)
                sum[k] += shares[i] * logarithms[corners[i]][k];

    MapPoint here;
    here.tensions = { std::exp (sum[0]), std::exp (sum[1]) };
    here.lowest = { { { std::exp (sum[2]), std::exp (sum[3]) }, { std::exp (sum[4]), std::exp (sum[5]) } } };
    return figuresFrom (batterNote, resonantNote, here, batterYield, resonantYield, present);
}

std::optional<double> TuningMap::resonantNoteFor (double batterNote, double drumNote) const
{
    const auto noteWith = [&] (double resonantNote) { return of (at (batterNote, resonantNote, {}), Figure::drumNote); };
    double low = resonant.front(), high = resonant.back();

    if (! (noteWith (low) <= drumNote && noteWith (high) >= drumNote))
        return std::nullopt;

    // The drum note rises with the resonant head's.
    constexpr int halvings = 24;

    for (int i = 0; i < halvings; ++i)
    {
        const double middle = std::sqrt (low * high);
        (noteWith (middle) < drumNote ? low : high) = middle;
    }

    return std::sqrt (low * high);
}

Figures figuresOf (const DrumTuner& tuner, const DrumSolver& solver, double batterNote, double resonantNote,
                   const std::optional<Present>& present)
{
    const Tensions tensions{ tuner.notes (HeadSide::batter).tensionFor (batterNote),
                             tuner.notes (HeadSide::resonant).tensionFor (resonantNote) };
    return figuresFrom (batterNote, resonantNote, solved (solver, tensions), yieldTension (tuner.drum().batter),
                        yieldTension (tuner.drum().resonant), present);
}

} // namespace finding
