#include "IntervalLimits.h"

#include "Modal/InputError.h"
#include "Modal/Prediction.h"

#include <algorithm>

namespace tool
{

using namespace modal;

namespace
{
/** "P1:P5": the least and the greatest interval. */
std::optional<std::pair<Interval, Interval>> intervalLimits (const Arguments& arguments)
{
    const auto text = arguments.value ("interval-limits");

    if (! text)
        return std::nullopt;

    const auto colon = text->find (':');

    if (colon == std::string::npos)
        throw InputError ("--interval-limits", '"' + *text + '"', "two intervals with a colon between: P1:P5");

    const auto least = Interval::parse (text->substr (0, colon), "--interval-limits"),
               greatest = Interval::parse (text->substr (colon + 1), "--interval-limits");

    if (least.semitones > greatest.semitones)
        throw InputError ("--interval-limits", '"' + *text + '"', "the smaller interval first");

    return std::pair{ least, greatest };
}

/** The drum notes that a held head leaves within two intervals: "D3 -4 to F3 +20", or "none" if the other head cannot have them.
 */
std::string drumNotesWithin (const DrumSpec& drum, ConcertPitch pitch, const ByDrumNoteAndHead& target, const Interval& least,
                             const Interval& greatest)
{
    const bool holdsBatter = target.held == HeadSide::batter;
    const auto range = tapNoteRange (drum, holdsBatter ? HeadSide::resonant : HeadSide::batter);
    const auto freeNote = [&] (const Interval& interval)
    { return holdsBatter ? target.heldNote * interval.ratio() : target.heldNote / interval.ratio(); };
    const auto [low, high] = std::minmax ({ freeNote (least), freeNote (greatest) });

    if (high < range.lowest || low > range.highest)
        return "none";

    const auto drumNoteAt = [&] (double note)
    {
        const double inRange = std::clamp (note, range.lowest, range.highest);
        const ByTapNotes notes{ holdsBatter ? target.heldNote : inRange, holdsBatter ? inRange : target.heldNote };
        return Note::fromFrequency (drumNote (solve (drum, tensionsFor (drum, { "", notes, {}, {} }))), pitch).nameWithCents();
    };
    return drumNoteAt (low) + " to " + drumNoteAt (high);
}
} // namespace

void checkInterval (const Arguments& arguments, const DrumSpec& drum, const Tuning& tuning)
{
    const auto limits = intervalLimits (arguments);

    if (! limits)
        return;

    const auto& [least, greatest] = *limits;
    const auto tensions = tensionsFor (drum, tuning);
    const double batter = tapNote (drum, HeadSide::batter, tensions.batter),
                 resonant = tapNote (drum, HeadSide::resonant, tensions.resonant);
    const Interval interval{ centsBetween (batter, resonant) / 100.0 };
    constexpr double slack = 0.005; // semitones, what a search for a note leaves

    if (interval.semitones >= least.semitones - slack && interval.semitones <= greatest.semitones + slack)
        return;

    const auto nameOf = [&] (double hertz) { return Note::fromFrequency (hertz, tuning.concertPitch).nameWithCents(); };
    const auto* target = std::get_if<ByDrumNoteAndHead> (&tuning.target);
    throw InputError ("interval", interval.longName() + " (batter " + nameOf (batter) + ", resonant " + nameOf (resonant) + ")",
                      least.longName() + " to " + greatest.longName() +
                          (target == nullptr ? std::string()
                                             : "; drum notes within that while the " +
                                                   std::string (target->held == HeadSide::batter ? "batter" : "resonant") +
                                                   " head stays at " + nameOf (target->heldNote) + ": " +
                                                   drumNotesWithin (drum, tuning.concertPitch, *target, least, greatest)));
}

} // namespace tool
