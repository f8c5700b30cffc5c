#include "NoteSearch.h"

#include "Modal/InputError.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace modal
{

namespace
{

constexpr double cent = 0.69314718055994531 / 1200.0;

/** A secant that has not arrived after so many steps meets a jump; then the bracket is halved until hardly anything is left. */
constexpr int mostSecants = 15, mostSteps = 60;

/** A place on the curve; both as logarithms. */
struct Place
{
    double setting;
    double error; ///< of the note
};

} // namespace

NoteFound findNote (double hertz, const NoteSearch& search)
{
    const auto noteOf = [&] (const Place& place) { return hertz * std::exp (place.error); };
    const double ends[] = { std::log (search.lowest), std::log (search.highest) };
    constexpr double unknown = std::numeric_limits<double>::infinity();
    // The error at the ends is unknown until a step lands there.
    Place below{ ends[0], -unknown }, above{ ends[1], unknown }, best{ ends[0], unknown };
    Place last{};
    double next = std::clamp (std::log (search.first), ends[0], ends[1]);

    for (int step = 0; step < mostSteps; ++step)
    {
        const Place place{ next, std::log (search.noteAt (std::exp (next)) / hertz) };

        if (std::abs (place.error) < std::abs (best.error))
            best = place;

        if (std::abs (place.error) < search.tolerance)
            break;

        (place.error < 0.0 ? below : above) = place;

        // The note lies outside the range.
        if ((place.error < 0.0 && next == ends[1]) || (place.error > 0.0 && next == ends[0]))
            break;

        const double seen = step > 0 ? (place.error - last.error) / (place.setting - last.setting) : 0.0;
        const double slope = seen > 0.2 * search.slope && seen < 4.0 * search.slope ? seen : search.slope;
        const bool isHalving = step >= mostSecants;
        last = place;
        next = place.setting - place.error / slope;

        if (next <= below.setting && below.error == -unknown)
            next = below.setting;
        else if (next >= above.setting && above.error == unknown)
            next = above.setting;
        else if (isHalving || ! (next > below.setting && next < above.setting))
            next = 0.5 * (below.setting + above.setting);

        // Where it does not jump, the note between is known to a thousandth of a cent.
        if (isHalving && above.setting - below.setting < 1.0e-6)
            break;
    }

    return { std::exp (best.setting), best.error, noteOf (below), noteOf (above),
             below.setting == ends[1] || above.setting == ends[0] };
}

double settingFor (double hertz, const NoteSearch& search, const std::string& field, const std::string& below,
                   const std::string& above, const std::string& jump)
{
    const auto found = findNote (hertz, search);

    if (std::abs (found.error) < cent)
        return found.setting;

    if (found.isBeyond && found.error > 0.0)
        throw InputError (field, asText (hertz, 5) + " Hz", asText (found.above, 4) + " Hz at least; " + below);

    if (found.isBeyond)
        throw InputError (field, asText (hertz, 5) + " Hz", asText (found.below, 4) + " Hz at most; " + above);

    const std::string from = std::isfinite (found.above) ? " or from " + asText (found.above, 4) + " Hz" : "";
    throw InputError (field, asText (hertz, 5) + " Hz", "up to " + asText (found.below, 4) + " Hz" + from + "; " + jump);
}

} // namespace modal
