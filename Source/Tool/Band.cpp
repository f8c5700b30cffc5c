#include "Band.h"

#include "Files/Quantity.h"
#include "Modal/InputError.h"

#include <algorithm>
#include <cmath>

namespace tool
{

using namespace modal;

namespace
{
constexpr files::Limits highestLimits{ 50.0, 20.0e3 }; // Hz

[[noreturn]] void refuse (double highest, const DrumSpec& drum, const Tensions& tensions)
{
    // The drum note lies below or near the batter's tap note; two octaves above it is more than enough.
    const auto far = std::clamp (4.0 * tapNote (drum, HeadSide::batter, tensions.batter), highestLimits.low, highestLimits.high);
    const auto note = drumNote (solve (drum, tensions, { .highestFrequency = far }));
    throw InputError ("--highest", asText (highest) + " Hz",
                      asText (std::ceil (std::max (highestLimits.low, note * std::exp2 (1.0 / 12.0)))) + " to " +
                          asText (highestLimits.high) + " Hz: at least a semitone above this drum note, " + asText (note, 4) +
                          " Hz");
}
} // namespace

const OptionGroup& modelOptions()
{
    static const OptionGroup group{
        "The model:",
        { { "highest", "2000Hz",
            "highest mode frequency, 50 Hz to 20 kHz; if not given, 2000 Hz, or for played\nsound about 400 modes" } }
    };
    return group;
}

std::optional<double> highestAsked (const Arguments& arguments)
{
    const auto text = arguments.value ("highest");
    return text ? std::optional (files::readQuantity (*text, files::Quantity::frequency, highestLimits, "--highest"))
                : std::nullopt;
}

Prediction predictAsked (const Arguments& arguments, const TunedDrum& tuned, double usualHighestFrequency)
{
    SolveOptions options;
    options.highestFrequency = highestAsked (arguments).value_or (usualHighestFrequency);
    auto prediction = predict (tuned.drum, tuned.tuning, options);

    if (prediction.drumNote <= 0.0 || ! std::isfinite (prediction.drumNotePerBatterSemitone) ||
        ! std::isfinite (prediction.drumNotePerResonantSemitone))
        refuse (options.highestFrequency, tuned.drum, tensionsFor (tuned.drum, tuned.tuning));

    return prediction;
}

void requireDrumNote (const DrumModes& modes, double highest, const DrumSpec& drum, const Tensions& tensions)
{
    if (drumNote (modes) <= 0.0)
        refuse (highest, drum, tensions);
}

} // namespace tool
