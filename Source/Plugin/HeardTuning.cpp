#include "HeardTuning.h"

#include "ParameterText.h"

#include "Modal/InputError.h"

#include <cmath>

namespace plugin
{
namespace
{
using P = Parameter;

double plain (const Values& values, P parameter)
{
    return static_cast<double> (valueOf (values, parameter));
}

void put (Values& values, P parameter, double value)
{
    const auto& spec = specOf (parameter);

    if (! (value >= spec.low && value <= spec.high))
        throw modal::InputError (spec.name, textOf (spec, value), textOf (spec, spec.low) + " to " + textOf (spec, spec.high));

    values[indexOf (parameter)] = static_cast<float> (spec.snapped (value));
}
} // namespace

void setHeard (Values& values, modal::HeadSide side, const modal::HeadFit& head)
{
    auto changed = values;
    const double heard = 69.0 + 12.0 * std::log2 (head.tapNote.value / siOf (values, P::concertPitch));
    const double batter = plain (values, P::batterNote);
    const bool isBatter = side == modal::HeadSide::batter;

    // The resonant head's note is the batter's and the interval together.
    const double resonant = batter + plain (values, P::interval);
    put (changed, P::batterNote, isBatter ? heard : batter);
    put (changed, P::interval, isBatter ? resonant - plain (changed, P::batterNote) : heard - batter);
    put (changed, isBatter ? P::batterCents : P::resonantCents, 0.0);

    for (std::size_t lug = 0; lug < head.lugCents.size() && lug < static_cast<std::size_t> (mostLugs); ++lug)
    {
        const auto number = static_cast<int> (lug);
        put (changed, isBatter ? batterLug (number) : resonantLug (number), head.lugCents[lug].value);
    }

    // Between the snapshots nothing of this would sound.
    put (changed, P::morphOn, 0.0);
    values = changed;
}

} // namespace plugin
