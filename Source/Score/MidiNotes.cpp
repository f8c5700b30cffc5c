#include "MidiNotes.h"

#include <algorithm>
#include <cmath>

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
constexpr SpeedRange ofStrokes{ 0.25, 40.0 }, ofSweeps{ 0.1, 30.0 };

} // namespace

double speedOfVelocity (int midiVelocity) noexcept
{
    return ofStrokes.speedOf (midiVelocity);
}

double sweepSpeedOfVelocity (int midiVelocity) noexcept
{
    return ofSweeps.speedOf (midiVelocity);
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
    return (kind == engine::StrokeKind::sweep ? ofSweeps : ofStrokes).velocityOf (speed);
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
            const bool isSweep = entry.kind == engine::StrokeKind::sweep;
            stroke.speed = isSweep ? sweepSpeedOfVelocity (velocity) : speedOfVelocity (velocity);
            return true;
        }
    return false;
}

} // namespace score
