#include "HeadNotes.h"

#include "Modal/InputError.h"
#include "Modal/NumberText.h"
#include "Modal/Tuning.h"
#include "Modal/Units.h"
#include "Modal/heads/OneHead.h"
#include "Modal/modes/OrderModes.h"

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

} // namespace

HeadNotes::HeadNotes (const DrumSpec& drum, HeadSide headSide) : side (headSide), single (withOneHead (drum, headSide))
{
    const double cutoff = waveCutoff * single.air.soundSpeed / (units::twoPi * single.radius());
    problem = std::make_shared<const OrderProblem> (makeOrderProblem (1, functions, single, cutoff));
    const double highest = at (yieldTension (single.batter));
    notes = { lowestShare * highest, highest };
}

double HeadNotes::at (double tension) const
{
    for (const auto& mode : modesOfOrder (*problem, single, { tension, 0.0 }, 1.0e9, 1))
        if (! mode.mode.isAirMode)
            return mode.mode.frequency;

    return 0.0;
}

void HeadNotes::requireInRange (double hertz) const
{
    if (! (hertz >= notes.lowest && hertz <= notes.highest))
        throw InputError (nameOf (side), asText (hertz, 5) + " Hz",
                          asLimit (notes.lowest, false) + " to " + asLimit (notes.highest, true) +
                              " Hz on this head; above, it would yield (" + fixedText (yieldTension (single.batter), 0) + " N/m)");
}

/** The tap note rises nearly with the square root of tension. */
NoteSearch HeadNotes::searchFor (double hertz) const
{
    const double yield = yieldTension (single.batter);
    return { .noteAt = [this] (double tension) { return at (tension); },
             .lowest = 1.0e-2 * lowestShare * lowestShare * yield,
             .highest = yield,
             .first = yield * std::pow (hertz / notes.highest, 2),
             .slope = 0.5,
             .tolerance = 1.0e-11 };
}

double HeadNotes::tensionFor (double hertz) const
{
    requireInRange (hertz);
    return settingFor (hertz, searchFor (hertz), nameOf (side), "below, it is slack", "above, it would yield",
                       "between them, the lowest (1,1) mode is an air mode");
}

double HeadNotes::tensionNear (double hertz) const
{
    requireInRange (hertz);
    return findNote (hertz, searchFor (hertz)).setting;
}

double HeadNotes::semitoneTension (double tension) const
{
    // The exponent of the power law that a small step shows; in vacuo it is a half.
    constexpr double step = 1.01;
    const double exponent = std::log (at (tension * step) / at (tension)) / std::log (step);
    return std::exp2 (1.0 / (12.0 * exponent)) - 1.0;
}

double tapNote (const DrumSpec& drum, HeadSide side, double tension)
{
    return HeadNotes (drum, side).at (tension);
}

NoteRange tapNoteRange (const DrumSpec& drum, HeadSide side)
{
    return HeadNotes (drum, side).range();
}

double tensionForTapNote (const DrumSpec& drum, HeadSide side, double hertz)
{
    return HeadNotes (drum, side).tensionFor (hertz);
}

double semitoneTension (const DrumSpec& drum, HeadSide side, double tension)
{
    return HeadNotes (drum, side).semitoneTension (tension);
}

double yieldTension (const HeadConstruction& head)
{
    return Film::yieldStress * head.loadBearingThickness();
}

} // namespace modal
