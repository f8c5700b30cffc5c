#include "MidiNotes.h"

#include "Modal/InputError.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace score
{

namespace
{

/** A speed in m/s that grows by equal factors from MIDI velocity 1 to 127. */
struct SpeedRange
{
    double slowest, factor;

    double speedOf (int velocity) const noexcept { return slowest * std::pow (factor, (std::clamp (velocity, 1, 127) - 1) / 126.0); }
    int velocityOf (double speed) const noexcept
    {
        const auto velocity = 1.0 + 126.0 * std::log (std::max (speed, 1.0e-3) / slowest) / std::log (factor);
        return std::clamp (static_cast<int> (std::lround (velocity)), 1, 127);
    }
};

constexpr SpeedRange rangeOf (engine::StrokeKind kind) noexcept
{
    return kind == engine::StrokeKind::sweep ? SpeedRange{ 0.1, 30.0 } : SpeedRange{ 0.25, 40.0 };
}

} // namespace

double speedOfVelocity (int midiVelocity, engine::StrokeKind kind) noexcept
{
    return rangeOf (kind).speedOf (midiVelocity);
}

const std::array<StrokeNote, 11>& strokeNotes() noexcept
{
    using engine::StrokeKind;
    static constexpr std::array<StrokeNote, 11> notes{ {
        { 37, StrokeKind::crossStick, 0.45 },
        { 38, StrokeKind::tip, 0.25 },
        { 40, StrokeKind::rimshot, 0.25 },
        { 24, StrokeKind::tip, 0.03 },
        { 25, StrokeKind::tip, 0.5 },
        { 26, StrokeKind::tip, 0.88 },
        { 23, StrokeKind::rimshot, 0.8 },
        { 22, StrokeKind::buzz, 0.3 },
        { 21, StrokeKind::doubleStroke, 0.25 },
        { 19, StrokeKind::sweep, 0.5 },
        { 18, StrokeKind::sweep, 0.85, true },
    } };
    return notes;
}

int velocityOfSpeed (double speed, engine::StrokeKind kind) noexcept
{
    return rangeOf (kind).velocityOf (speed);
}

int noteForStroke (engine::StrokeKind kind, double position) noexcept
{
    const auto& notes = strokeNotes();
    const auto distance = [&] (const StrokeNote& note)
    { return note.kind == kind ? std::abs (note.position - position) : 2.0; };
    return std::min_element (notes.begin(), notes.end(),
                             [&] (const auto& a, const auto& b) { return distance (a) < distance (b); })
        ->note;
}

bool strokeForNote (int note, int velocity, engine::Stroke& stroke, bool hasBrush) noexcept
{
    constexpr int swirl = 40, circle = 19;
    for (const auto& entry : strokeNotes())
        if (entry.note == (hasBrush && note == swirl ? circle : note))
        {
            stroke.kind = entry.kind;
            stroke.position = entry.position;
            stroke.sweepsStraight = entry.sweepsStraight;
            stroke.speed = speedOfVelocity (velocity, entry.kind);
            return true;
        }
    return false;
}

StrokesRead strokesOfNotes (const std::vector<MidiNote>& notes, bool hasBrush, const std::string& field)
{
    StrokesRead read;
    std::set<int> unknown;
    std::size_t left = 0;

    for (const auto& note : notes)
    {
        TimedStroke timed{ note.time, {} };

        if (strokeForNote (note.number, note.velocity, timed.stroke, hasBrush))
        {
            timed.stroke.sweepTime = note.held.value_or (timed.stroke.sweepTime);
            read.strokes.push_back (timed);
        }
        else
        {
            ++left;
            unknown.insert (note.number);
        }
    }

    if (read.strokes.empty())
        throw modal::InputError::fault (field, "has no note that plays a stroke",
                                        "notes 18, 19, 21 to 26, 37, 38 or 40, such as 38, a stroke off centre");

    std::stable_sort (read.strokes.begin(), read.strokes.end(),
                      [] (const TimedStroke& a, const TimedStroke& b) { return a.time < b.time; });

    if (left > 0)
    {
        std::string numbers;

        for (const int note : unknown)
            numbers += (numbers.empty() ? "" : ", ") + std::to_string (note);

        read.remarks.push_back (std::to_string (left) + (left == 1 ? " note of " : " notes of ") + std::to_string (notes.size()) +
                                (left == 1 ? " has no stroke (" : " have no stroke (") + numbers + ")");
    }

    return read;
}

} // namespace score
