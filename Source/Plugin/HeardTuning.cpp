#include "HeardTuning.h"

#include "SetValue.h"

#include "Modal/pitch/Note.h"

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

} // namespace plugin
