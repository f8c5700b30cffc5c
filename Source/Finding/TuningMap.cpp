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
    of (result, Figure::drumNote) = point.drumNote > 0.0 ? point.drumNote : unknown;
    of (result, Figure::ring) = point.drumNote > 0.0 ? point.ring : unknown;
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

MapPoint solved (const DrumSolver& solver, const Tensions& tensions)
{
    const auto modes = solver.solve (tensions);
    const auto sounding =
        std::find_if (modes.modes.begin(), modes.modes.end(), [] (const Mode& mode) { return ! mode.isAirMode; });
    MapPoint point{ tensions };

    if (sounding != modes.modes.end())
    {
        point.drumNote = sounding->frequency;
        point.ring = sounding->decay.t60();
    }

    return point;
}

void requireTwoHeads (const DrumSpec& drum)
{
    if (! drum.hasResonantHead())
        throw InputError ("drum", "one without a resonant head", "a drum with two heads: the map goes over the notes of both");
}

NoteRange usable (const HeadNotes& head, double yield)
{
    constexpr double slack = 0.02, taut = 0.999; // of the tension at yield
    return { head.at (slack * yield), head.at (taut * yield) };
}

} // namespace

DrumSolver solverFor (const DrumTuner& tuner)
{
    SolveOptions options;
    options.highestFrequency = std::max (700.0, 1.1 * tuner.notes (HeadSide::batter).range().highest);
    options.extraFunctions = 4;
    return DrumSolver (tuner.drum(), options);
}

MapArea areaOf (const DrumTuner& tuner)
{
    requireTwoHeads (tuner.drum());
    return { usable (tuner.notes (HeadSide::batter), yieldTension (tuner.drum().batter)),
             usable (tuner.notes (HeadSide::resonant), yieldTension (tuner.drum().resonant)) };
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
    auto map = std::make_shared<TuningMap>();
    map->whole = area;
    map->batterYield = yieldTension (tuner.drum().batter);
    map->resonantYield = yieldTension (tuner.drum().resonant);
    map->batter = notesBetween (area.batter, step);
    map->resonant = notesBetween (area.resonant, step);
    std::vector<double> batterTensions (map->batter.size()), resonantTensions (map->resonant.size());
    const auto columns = map->batter.size(), rows = map->resonant.size();

    inParallel (
        columns + rows, threads,
        [&] (std::size_t i)
        {
            if (i < columns)
                batterTensions[i] = tuner.notes (HeadSide::batter).tensionNear (map->batter[i]);
            else
                resonantTensions[i - columns] = tuner.notes (HeadSide::resonant).tensionNear (map->resonant[i - columns]);
        },
        cancel);

    map->points.resize (columns * rows);
    inParallel (
        columns * rows, threads,
        [&] (std::size_t i) {
            map->points[i] = solved (solver, { batterTensions[i / rows], resonantTensions[i % rows] });
        },
        cancel,
        [&] (std::size_t done)
        {
            if (progress)
                progress (static_cast<double> (done) / static_cast<double> (columns * rows));
        });

    return cancel ? nullptr : map;
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

    const std::array<const MapPoint*, 4> corners{ &point (b->below, r->below), &point (b->below + 1, r->below),
                                                  &point (b->below, r->below + 1), &point (b->below + 1, r->below + 1) };
    const std::array<double, 4> shares{ (1.0 - b->share) * (1.0 - r->share), b->share * (1.0 - r->share),
                                        (1.0 - b->share) * r->share, b->share * r->share };
    const auto between = [&] (auto value)
    {
        double sum = 0.0;

        for (std::size_t i = 0; i < corners.size(); ++i)
            if (shares[i] > 0.0)
                sum += shares[i] * std::log (value (*corners[i]));

        return std::exp (sum);
    };

    MapPoint here;
    here.tensions.batter = between ([] (const MapPoint& p) { return p.tensions.batter; });
    here.tensions.resonant = between ([] (const MapPoint& p) { return p.tensions.resonant; });
    here.drumNote = between ([] (const MapPoint& p) { return p.drumNote; });
    here.ring = between ([] (const MapPoint& p) { return p.ring; });
    return figuresFrom (batterNote, resonantNote, here, batterYield, resonantYield, present);
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
