#include "Atlas.h"

#include "Finding/Parallel.h"
#include "Modal/InputError.h"
#include "Modal/Units.h"

#include <algorithm>
#include <cmath>

namespace sheets
{

using namespace modal;

namespace
{

std::vector<double> evenly (double low, double high, int count, bool onLogarithm)
{
    std::vector<double> values;

    for (int i = 0; i < count; ++i)
    {
        const double x = count > 1 ? static_cast<double> (i) / (count - 1) : 0.0;
        values.push_back (onLogarithm ? low * std::pow (high / low, x) : low + (high - low) * x);
    }

    return values;
}

/** Begin and end of a part of the work, as shares of all of it. */
struct Part
{
    double begin, end;
};

/** Progress of a part of the work that has `count` jobs. */
std::function<void (std::size_t)> partly (const std::function<void (double)>& progress, Part part, std::size_t count)
{
    return [=] (std::size_t done)
    {
        if (progress)
            progress (part.begin + (part.end - part.begin) * static_cast<double> (done) / static_cast<double> (count));
    };
}

/** The tension for each note, 0 where the head cannot reach it. */
std::vector<double> tensionsOf (const HeadNotes& head, unsigned threads, const std::vector<double>& notes,
                                const std::function<void (double)>& progress, Part part, const std::atomic<bool>& cancel)
{
    std::vector<double> tensions (notes.size(), 0.0);
    finding::inParallel (
        notes.size(), threads,
        [&] (std::size_t i)
        {
            try
            {
                tensions[i] = head.tensionFor (notes[i]);
            }
            catch (const InputError&)
            {
                tensions[i] = 0.0;
            }
        },
        cancel, partly (progress, part, notes.size()));
    return tensions;
}

/** Strength of a mode after a half sine of force that lasts `contactTime` s, against one after a blow of no length. */
double softened (double omega, double contactTime)
{
    const auto x = omega * contactTime / units::pi;
    return std::abs (x - 1.0) < 1.0e-6 ? 0.25 * units::pi : std::cos (0.5 * units::pi * x) / (1.0 - x * x);
}

/** Speed of the resonant head under the wires after a light tap near the edge, beside the snare bed: the mean of some places and
    20 ms. The stick stays on the head for 5 ms (measured on drums: 3 to 6 ms, Wagner 2006), so that modes far above its note do not
    decide, whose number jumps from tuning to tuning. */
double wireResponseOf (const DrumModes& modes)
{
    constexpr double tapPlace = 0.8, tapAngles[] = { 0.6, 0.8, 1.0 }; // of the radius, rad
    constexpr double bedPlaces[] = { 0.0, 0.35, 0.7 };                // of the radius, along the bed
    constexpr double contactTime = 5.0e-3, span = 0.02, step = 0.25e-3; // s
    Eigen::ArrayXd omega (modes.size()), decay (modes.size()), pulse (modes.size());

    for (int i = 0; i < modes.size(); ++i)
    {
        omega[i] = modes.modes[static_cast<std::size_t> (i)].angularFrequency();
        decay[i] = modes.modes[static_cast<std::size_t> (i)].decay.total();
        pulse[i] = softened (omega[i], contactTime);
    }

    double sum = 0.0;
    int count = 0;

    for (const double angle : tapAngles)
        for (const double place : bedPlaces)
        {
            const Eigen::ArrayXd weight = pulse * modes.batterShapeAt (tapPlace * modes.radius, angle).array() *
                                          modes.resonantShapeAt (place * modes.radius, 0.0).array();

            // From the end of the contact, whose middle is at 0.
            for (double t = 0.5 * contactTime; t < 0.5 * contactTime + span; t += step, ++count)
            {
                const double speed = (weight * (-decay * t).exp() * (omega * t).cos()).sum();
                sum += speed * speed;
            }
        }

    return std::sqrt (sum / count);
}

void checkRequest (const AtlasRequest& r)
{
    check (r.drum);

    if (! r.drum.hasResonantHead())
        throw InputError ("atlas", "a drum without a resonant head", "a drum with two heads: an interval needs both");

    requireInRange (r.lowestNote, { 20.0, 2000.0, "Hz" }, "lowest batter note");
    requireInRange (r.highestNote, { r.lowestNote, 2000.0, "Hz" }, "highest batter note");
    requireInRange (r.notes, { 1.0, 500.0, "" }, "batter notes");
    requireInRange (r.lowestInterval, { -24.0, 24.0, "semitones" }, "lowest interval");
    requireInRange (r.highestInterval, { r.lowestInterval, 24.0, "semitones" }, "highest interval");
    requireInRange (r.intervals, { 1.0, 500.0, "" }, "intervals");
}

[[noreturn]] void refuseImpossible (const AtlasRequest& request)
{
    const auto name = [&] (double hertz) { return Note::fromFrequency (hertz, request.concertPitch).nameWithCents(); };
    const auto highest = [&] (HeadSide side, const HeadConstruction& head)
    { return name (tapNote (request.drum, side, yieldTension (head))); };

    throw InputError ("the atlas's range",
                      name (request.lowestNote) + " to " + name (request.highestNote) +
                          ", where every tuning has a head slack or beyond its yield strength,",
                      "tap notes below " + highest (HeadSide::batter, request.drum.batter) + " on the batter head and " +
                          highest (HeadSide::resonant, request.drum.resonant) +
                          " on the resonant head, where they reach their yield strength");
}

} // namespace

Atlas makeAtlas (const AtlasRequest& request, const std::function<void (double)>& progress, const std::atomic<bool>& cancel)
{
    checkRequest (request);
    Atlas atlas;
    atlas.request = request;
    atlas.notes = evenly (request.lowestNote, request.highestNote, request.notes, true);
    atlas.intervals = evenly (request.lowestInterval, request.highestInterval, request.intervals, false);

    // Many tunings share a resonant note; its tension is found once.
    std::vector<double> resonantNotes;

    for (const double note : atlas.notes)
        for (const double interval : atlas.intervals)
            resonantNotes.push_back (note * Interval{ interval }.ratio());

    auto distinct = resonantNotes;
    const auto isSame = [] (double a, double b) { return std::abs (a - b) < 1.0e-9 * a; };
    std::sort (distinct.begin(), distinct.end());
    distinct.erase (std::unique (distinct.begin(), distinct.end(), isSame), distinct.end());

    const HeadNotes batter (request.drum, HeadSide::batter), resonant (request.drum, HeadSide::resonant);
    const DrumSolver solver (request.drum, { .highestFrequency = request.highestFrequency, .extraFunctions = 4 });

    // Finding a tension takes about as long as solving a tuning.
    const auto all = static_cast<double> (atlas.notes.size() + distinct.size() + resonantNotes.size());
    const double batterDone = static_cast<double> (atlas.notes.size()) / all;
    const double tensionsDone = batterDone + static_cast<double> (distinct.size()) / all;
    const auto batterTensions = tensionsOf (batter, request.threads, atlas.notes, progress, { 0.0, batterDone }, cancel);
    const auto distinctTensions =
        tensionsOf (resonant, request.threads, distinct, progress, { batterDone, tensionsDone }, cancel);
    const double batterYield = yieldTension (request.drum.batter), resonantYield = yieldTension (request.drum.resonant);
    atlas.points.resize (resonantNotes.size());

    const auto solvePoint = [&] (std::size_t i)
    {
        auto& point = atlas.points[i];
        const auto note = i / atlas.intervals.size();
        point.batterNote = atlas.notes[note];
        point.interval = atlas.intervals[i % atlas.intervals.size()];

        const auto at = std::lower_bound (distinct.begin(), distinct.end(), resonantNotes[i] * (1.0 - 1.0e-9));
        const Tensions tensions{ batterTensions[note], distinctTensions[static_cast<std::size_t> (at - distinct.begin())] };

        if (! (tensions.batter > 0.0 && tensions.resonant > 0.0))
            return;

        const auto modes = solver.solve (tensions);
        const auto sounding = std::find_if (modes.modes.begin(), modes.modes.end(), [] (const Mode& m) { return ! m.isAirMode; });

        if (sounding == modes.modes.end())
            return;

        point.drumNote = sounding->frequency;
        point.sustain = sounding->decay.t60();
        point.wireResponse = wireResponseOf (modes);
        point.largestStress = std::max (tensions.batter / batterYield, tensions.resonant / resonantYield);
        point.isPossible = true;
    };

    finding::inParallel (atlas.points.size(), request.threads, solvePoint, cancel,
                         partly (progress, { tensionsDone, 1.0 }, atlas.points.size()));
    atlas.isComplete = ! cancel;

    if (atlas.isComplete && std::none_of (atlas.points.begin(), atlas.points.end(), [] (const auto& p) { return p.isPossible; }))
        refuseImpossible (request);

    return atlas;
}

} // namespace sheets
