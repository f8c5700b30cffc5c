#include "Morph.h"

#include <algorithm>

namespace plugin
{

bool belongsToSound (Parameter parameter) noexcept
{
    switch (parameter)
    {
    case Parameter::tuningChannel:
    case Parameter::strokeNotes:
    case Parameter::positionController:

    case Parameter::placeOn:
    case Parameter::placeKind:
    case Parameter::roomVolume:
    case Parameter::lengthToHeight:
    case Parameter::widthToHeight:
    case Parameter::reverberation125:
    case Parameter::reverberation250:
    case Parameter::reverberation500:
    case Parameter::reverberation1k:
    case Parameter::reverberation2k:
    case Parameter::reverberation4k:
    case Parameter::reverberation8k:
    case Parameter::drumFromWall:
    case Parameter::drumAside:
    case Parameter::drumHeight:
    case Parameter::listenerDistance:
    case Parameter::listenerAside:
    case Parameter::listenerHeight:
    case Parameter::noiseRating:
    case Parameter::placeLevel:
    case Parameter::microphonesInPlace:

    case Parameter::pattern:
    case Parameter::patternOn:
    case Parameter::patternSynced:
    case Parameter::patternTempo:
    case Parameter::morphOn:
    case Parameter::morph:
    case Parameter::gain:
    case Parameter::bypass:
        return false;
    default:
        return true;
    }
}

Values morphed (const Values& a, const Values& b, double share, const Values& live) noexcept
{
    Values values = live;
    const auto amount = static_cast<float> (std::clamp (share, 0.0, 1.0));

    for (std::size_t i = 0; i < parameterCount; ++i)
    {
        const auto parameter = static_cast<Parameter> (i);

        if (! belongsToSound (parameter))
            continue;

        const auto measure = specOf (parameter).measure;
        const bool jumps = measure == Measure::choice || measure == Measure::toggle || measure == Measure::whole;
        // The ends are exact in spite of rounding.
        values[i] = amount <= 0.0f   ? a[i]
                    : amount >= 1.0f ? b[i]
                    : jumps          ? (amount < 0.5f ? a[i] : b[i])
                                     : a[i] + amount * (b[i] - a[i]);
    }

    return values;
}

} // namespace plugin
