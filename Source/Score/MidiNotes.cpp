#include "MidiNotes.h"

#include <algorithm>
#include <cmath>

namespace score
{

double speedOfVelocity (int midiVelocity) noexcept
{
    return 0.25 * std::pow (40.0, (std::clamp (midiVelocity, 1, 127) - 1) / 126.0);
}

const std::array<StrokeNote, 9>& strokeNotes() noexcept
{
    using engine::StrokeKind;
    static constexpr std::array<StrokeNote, 9> notes{ {
        { 37, StrokeKind::crossStick, 0.45 },
        { 38, StrokeKind::tip, 0.25 },
        { 40, StrokeKind::rimshot, 0.25 },
        { 24, StrokeKind::tip, 0.03 },
        { 25, StrokeKind::tip, 0.5 },
        { 26, StrokeKind::tip, 0.88 },
        { 23, StrokeKind::rimshot, 0.8 },
        { 22, StrokeKind::buzz, 0.3 },
        { 21, StrokeKind::doubleStroke, 0.25 },
    } };
    return notes;
}

int velocityOfSpeed (double speed) noexcept
{
    const auto velocity = 1.0 + 126.0 * std::log (std::max (speed, 1.0e-3) / 0.25) / std::log (40.0);
    return std::clamp (static_cast<int> (std::lround (velocity)), 1, 127);
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

bool strokeForNote (int note, int velocity, engine::Stroke& stroke) noexcept
{
    for (const auto& entry : strokeNotes())
        if (entry.note == note)
        {
            stroke.kind = entry.kind;
            stroke.position = entry.position;
            stroke.speed = speedOfVelocity (velocity);
            return true;
        }
    return false;
}

} // namespace score
