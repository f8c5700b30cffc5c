#include "InputError.h"
#include "OneHead.h"
#include "OrderModes.h"
#include "Tuning.h"
#include "Units.h"

#include <cmath>

namespace modal
{

namespace
{

// Enough for the lowest (1,1) mode to 0.01 Hz: its shape is nearly the first basis function's.
constexpr int functions = 9;
// Cavity waves to keep, in units of c / 2πa: the (1,1) mode lies near 1, the next waves of the order above 1.84.
constexpr double waveCutoff = 8.0;

double yieldTapNote (const DrumSpec& drum, HeadSide side)
{
    return tapNote (drum, side, yieldTension (side == HeadSide::batter ? drum.batter : drum.resonant));
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

double tensionForTapNote (const DrumSpec& drum, HeadSide side, double hertz)
{
    const char* const head = side == HeadSide::batter ? "batter" : "resonant";
    const auto& construction = side == HeadSide::batter ? drum.batter : drum.resonant;
    const double highest = yieldTapNote (drum, side);
    const double lowest = 0.02 * highest;

    if (! (hertz >= lowest && hertz <= highest))
        throw InputError (std::string (head) + " tap note", asText (hertz, 5) + " Hz",
                          asText (lowest, 4) + " to " + asText (highest, 4) + " Hz on this head; above, its film would yield (" +
                              asText (yieldTension (construction), 4) + " N/m)");

    // The tap note rises nearly with the square root of tension, so that each step of this fixed point wins a digit or two; the
    // secant on the logarithms then doubles them.
    double previousTension = yieldTension (construction), previousError = std::log (highest / hertz);
    double tension = previousTension * std::exp (-2.0 * previousError);

    for (int step = 0; step < 30; ++step)
    {
        const double error = std::log (tapNote (drum, side, tension) / hertz);

        if (std::abs (error) < 1.0e-11)
            break;

        const double slope = (error - previousError) / std::log (tension / previousTension);
        previousTension = tension;
        previousError = error;
        tension *= std::exp (-error / (slope > 0.1 && slope < 2.0 ? slope : 0.5));
    }

    return tension;
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
