#include "Modal/InputError.h"
#include "Modal/Tuning.h"
#include "Modal/Units.h"
#include "Modal/heads/OneHead.h"
#include "Modal/modes/OrderModes.h"
#include "NoteSearch.h"

#include <cmath>

namespace modal
{

namespace
{

// Enough for the lowest (1,1) mode to 0.01 Hz: its shape is nearly the first basis function's.
constexpr int functions = 9;
// Cavity waves to keep, in units of c / 2πa: the (1,1) mode lies near 1, the next waves of the order above 1.84.
constexpr double waveCutoff = 8.0;

/** Below this share of the tap note at yield the head is too slack to have a note. */
constexpr double lowestShare = 0.02;

double yieldTension (const DrumSpec& drum, HeadSide side)
{
    return yieldTension (side == HeadSide::batter ? drum.batter : drum.resonant);
}

std::string nameOf (HeadSide side)
{
    return side == HeadSide::batter ? "batter tap note" : "resonant tap note";
}

/** A limit as text of four digits, rounded to the side that is allowed. */
std::string asLimit (double value, bool isHighest)
{
    const double step = std::pow (10.0, std::floor (std::log10 (value)) - 3.0);
    return asText (step * (isHighest ? std::floor (value / step) : std::ceil (value / step)), 4);
}

void requireInRange (double hertz, const DrumSpec& drum, HeadSide side)
{
    const auto range = tapNoteRange (drum, side);

    if (! (hertz >= range.lowest && hertz <= range.highest))
        throw InputError (nameOf (side), asText (hertz, 5) + " Hz",
                          asLimit (range.lowest, false) + " to " + asLimit (range.highest, true) +
                              " Hz on this head; above, it would yield (" + asText (yieldTension (drum, side), 4) + " N/m)");
}

/** The tap note rises nearly with the square root of tension. */
NoteSearch searchFor (const DrumSpec& drum, HeadSide side, double hertz)
{
    const double yield = yieldTension (drum, side);
    return { .noteAt = [&drum, side] (double tension) { return tapNote (drum, side, tension); },
             .lowest = 1.0e-2 * lowestShare * lowestShare * yield,
             .highest = yield,
             .first = yield * std::pow (hertz / tapNoteRange (drum, side).highest, 2),
             .slope = 0.5,
             .tolerance = 1.0e-11 };
}

} // namespace

double tapNote (const DrumSpec& drum, HeadSide side, double tension)
{
    const auto single = withOneHead (drum, side);
    const Tensions tensions{ tension, 0.0 };
    const double cutoff = waveCutoff * drum.air.soundSpeed / (units::twoPi * drum.radius());
    const auto problem = makeOrderProblem (1, functions, single, tensions, cutoff);
    const auto modes = modesOfOrder (problem, single, tensions, 1.0e9);

    for (const auto& mode : modes)
        if (! mode.mode.isAirMode)
            return mode.mode.frequency;

    return 0.0;
}

NoteRange tapNoteRange (const DrumSpec& drum, HeadSide side)
{
    const double highest = tapNote (drum, side, yieldTension (drum, side));
    return { lowestShare * highest, highest };
}

double tensionForTapNote (const DrumSpec& drum, HeadSide side, double hertz)
{
    requireInRange (hertz, drum, side);
    return settingFor (hertz, searchFor (drum, side, hertz), nameOf (side), "below, it is slack", "above, it would yield",
                       "between them, the lowest (1,1) mode is an air mode");
}

double tensionNearTapNote (const DrumSpec& drum, HeadSide side, double hertz)
{
    requireInRange (hertz, drum, side);
    return findNote (hertz, searchFor (drum, side, hertz)).setting;
}

double semitoneTension (const DrumSpec& drum, HeadSide side, double tension)
{
    // The exponent of the power law that a small step shows; in vacuo it is a half.
    constexpr double step = 1.01;
    const double exponent = std::log (tapNote (drum, side, tension * step) / tapNote (drum, side, tension)) / std::log (step);
    return std::exp2 (1.0 / (12.0 * exponent)) - 1.0;
}

double yieldTension (const HeadConstruction& head)
{
    return Film::yieldStress * head.loadBearingThickness();
}

} // namespace modal
