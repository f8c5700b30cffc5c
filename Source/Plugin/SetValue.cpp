#include "SetValue.h"

#include "ParameterText.h"

#include "Modal/InputError.h"

#include <cmath>

namespace plugin
{

void setSi (Values& values, Parameter parameter, double si)
{
    const auto& spec = specOf (parameter);
    const auto value = spec.fromSi (si);
    const auto slack = 1.0e-6 * (spec.high - spec.low);

    if (! std::isfinite (value) || value < spec.low - slack || value > spec.high + slack)
        throw modal::InputError (spec.name, textOf (spec, value), textOf (spec, spec.low) + " to " + textOf (spec, spec.high));

    values[indexOf (parameter)] = static_cast<float> (spec.snapped (value));
}

} // namespace plugin
