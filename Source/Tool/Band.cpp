#include "Band.h"

#include "Modal/InputError.h"

#include <algorithm>
#include <cmath>

namespace tool
{

using namespace modal;

namespace
{
[[noreturn]] void refuse (double highest, const DrumSpec& drum, const Tensions& tensions)
{
    // The drum note lies below or near the batter's tap note; two octaves above it is more than enough.
    const auto far = std::clamp (4.0 * tapNote (drum, HeadSide::batter, tensions.batter), leastHighest, mostHighest);
    const auto note = drumNote (solve (drum, tensions, { .highestFrequency = far }));
    throw InputError ("--highest", asText (highest) + " Hz",
                      asText (std::ceil (std::max (leastHighest, note * std::exp2 (1.0 / 12.0)))) + " to " +
                          asText (mostHighest) + " Hz: at least a semitone above this drum note, " + asText (note, 4) + " Hz");
}
} // namespace

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
