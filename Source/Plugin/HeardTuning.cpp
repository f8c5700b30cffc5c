#include "HeardTuning.h"

#include "SetValue.h"

#include "Fitting/NoteReading.h"
#include "Modal/Units.h"
#include "Modal/pitch/Note.h"

#include <cmath>
#include <numeric>

namespace plugin
{
namespace
{
using P = Parameter;

double plain (const Values& values, P parameter)
{
    return static_cast<double> (valueOf (values, parameter));
}
} // namespace

void setHeard (Values& values, modal::HeadSide side, const fitting::HeadFit& head)
{
    auto changed = values;
    const double heard = modal::midiOfHertz (head.tapNote.value, { siOf (values, P::concertPitch) });
    const double batter = plain (values, P::batterNote);
    const bool isBatter = side == modal::HeadSide::batter;

    // The resonant head's note is the batter's and the interval together.
    const double resonant = batter + plain (values, P::interval);
    setSi (changed, P::batterNote, isBatter ? heard : batter);
    setSi (changed, P::interval, isBatter ? resonant - plain (changed, P::batterNote) : heard - batter);
    setSi (changed, isBatter ? P::batterCents : P::resonantCents, 0.0);

    for (std::size_t lug = 0; lug < head.lugCents.size() && lug < static_cast<std::size_t> (lugParameters); ++lug)
    {
        const auto number = static_cast<int> (lug);
        setSi (changed, isBatter ? batterLug (number) : resonantLug (number), head.lugCents[lug].value);
    }

    // The morph would hide the measured values.
    setSi (changed, P::morphOn, 0.0);
    values = changed;
}

void setHeard (Values& values, const fitting::DrumAnswer& answer)
{
    auto changed = values;
    const modal::ConcertPitch pitch{ siOf (values, P::concertPitch) };
    const double batter = plain (values, P::batterNote), resonant = batter + plain (values, P::interval);
    const auto noteOf = [&] (const fitting::DrumAnswer::Head& head, double otherwise)
    { return head.tapNote.value > 0.0 ? modal::midiOfHertz (head.tapNote.value, pitch) : otherwise; };

    setSi (changed, P::diameter, answer.diameter);
    setSi (changed, P::batterNote, noteOf (answer.batter, batter));
    setSi (changed, P::interval, noteOf (answer.resonant, resonant) - plain (changed, P::batterNote));
    setSi (changed, P::batterCents, 0.0);
    setSi (changed, P::resonantCents, 0.0);
    setSi (changed, P::morphOn, 0.0); // it would hide the measured values
    values = changed;
}

RodTurns rodTurnsTo (const DrumRequest& wanted, const std::optional<fitting::HeadAsIs>& batter,
                     const std::optional<fitting::HeadAsIs>& resonant)
{
    fitting::PlanRequest request;
    request.drum = wanted.drum;
    request.wanted = wanted.tuning;
    request.batter = batter;
    request.resonant = resonant;
    RodTurns found;

    for (const auto& head : fitting::makePlan (request).heads)
    {
        double turns = head.turnsLeft;

        for (const auto& pass : head.passes)
            turns += std::accumulate (pass.turns.begin(), pass.turns.end(), 0.0) / static_cast<double> (pass.turns.size());

        (head.side == modal::HeadSide::batter ? found.batter : found.resonant) = turns;
    }

    return found;
}

fitting::DrumFitSetup strikesOf (modal::DrumSpec drum, const KnownOfDrum& known)
{
    // Relative, one standard deviation: from one usual head to the next. Common practice, no source.
    constexpr double unknownMass = 0.2;
    const auto read = [] (const std::optional<double>& hertz)
    { return hertz ? std::optional (fitting::readNote (*hertz)) : std::nullopt; };

    drum.muffling = {};
    fitting::DrumFitSetup setup{ .drum = drum };
    setup.batterNote = read (known.batterNote);
    setup.resonantNote = read (known.resonantNote);

    if (known.isSizeUnsure)
        setup.otherDiameters = { drum.diameter - modal::units::inch, drum.diameter + modal::units::inch };

    if (known.areHeadsUnsure)
        setup.massTolerance = unknownMass;

    return setup;
}

} // namespace plugin
