#include "NoteLimits.h"

#include "NoteText.h"
#include "Strings.h"

#include "Modal/InputError.h"
#include "Modal/Tuning.h"

#include <cmath>

namespace editor
{
namespace
{
using plugin::Parameter;

constexpr NoteLimits::Range unlimited{ -1000.0, 1000.0 };

NoteLimits::Range rangeOf (const plugin::DrumRequest& request, modal::HeadSide side)
{
    const auto reach = modal::tapNoteRange (request.drum, side);
    const auto midi = [&] (double hertz) { return modal::midiOfHertz (hertz, request.tuning.concertPitch); };
    return { 0.01 * std::ceil (100.0 * midi (reach.lowest)), 0.01 * std::floor (100.0 * midi (reach.highest)) };
}

} // namespace

NoteLimits::Range NoteLimits::of (modal::HeadSide side)
{
    refresh();
    return ranges[side == modal::HeadSide::batter ? 0 : 1];
}

void NoteLimits::refresh()
{
    auto values = processor.state().live;
    for (const auto tuned :
         { Parameter::batterNote, Parameter::interval, Parameter::batterCents, Parameter::resonantCents, Parameter::gain })
        values[plugin::indexOf (tuned)] = 0.0f;
    if (limitsOf == values)
        return;
    limitsOf = values;
    ranges[0] = ranges[1] = unlimited;
    try
    {
        const auto request = plugin::requestOf (values);
        ranges[0] = rangeOf (request, modal::HeadSide::batter);
        if (request.drum.hasResonantHead())
            ranges[1] = rangeOf (request, modal::HeadSide::resonant);
    }
    catch (const modal::InputError&)
    {
        // An impossible drum has no limits; the solver reports what is wrong.
    }
}

juce::String NoteLimits::sentence (modal::HeadSide side)
{
    const auto range = of (side);
    return strings::headReaches (side == modal::HeadSide::batter, noteOfMidi (range.low), noteOfMidi (range.high));
}

} // namespace editor
