#pragma once

#include "Figure.h"

#include <optional>
#include <vector>

namespace finding
{

/** A closed range of a figure's values, in the units of Figure. */
struct Span
{
    double low, high;
};

/** Something wanted of a tuning: a figure within one of several ranges ("D3 to E3"; "a tone of the key"). */
struct Wish
{
    Figure figure;
    std::vector<Span> ranges; ///< ascending, at least one
    std::string text;         ///< for people: "drum note D3 to E3"
    std::string reason{}; ///< where a wish that was not stated comes from: "ring shorter than an eighth at 120 beats per minute;
                          ///< common practice, no source"
};

/** A range as one wish with its text. `low` and `high` in the units of Figure; infinite: no limit. Throws modal::InputError on
   the figure's name if a limit is out of range, or they stand the wrong way round. */
Wish wishFor (Figure, Span, modal::ConcertPitch);

/** By how many steps (see stepsBetween()) a value misses a wish: 0 if it is met, positive above, negative below; infinite if the
    value is not known. */
double missOf (const Wish&, double value);

/** The limit of the wish that is nearest to a value; the value itself if it is met. */
double nearestAllowed (const Wish&, double value);

/** Reads "D3:E3", "D3", ":0.6s", ":1beat", "0.2:", "P4:P5", "-2:2", "stays" as a range of a figure; a single note is 10 cents
   wide either way.
    @param tempo  beats per minute, for times in beats
    @throws modal::InputError on `field` */
Wish readWish (Figure, const std::string& text, modal::ConcertPitch, const std::string& field,
               std::optional<double> tempo = std::nullopt);

} // namespace finding
