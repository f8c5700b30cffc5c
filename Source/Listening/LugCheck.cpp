#include "LugCheck.h"

#include "Partials.h"

#include "Modal/InputError.h"

namespace listening
{

fitting::HeardTap heardTap (const Recording& recording, const Tap& tap, double quiet, int lug, bool hasPatch)
{
    return { .lug = lug, .hasPatch = hasPatch, .partials = partialsOf (recording, tap, quiet) };
}

std::string remarksOn (const Tap& tap, const std::string& name, bool isUsed)
{
    std::string remarks;

    for (const auto trouble : tap.troubles)
        remarks += name + ": " + explained (trouble) + ".\n";

    return isUsed ? remarks : remarks + name + " is left out.\n";
}

RecordedLugCheck hearLugCheck (const Recording& recording, int lugs, bool hasPatch, const std::string& field)
{
    const auto taps = findTaps (recording);
    const auto quiet = quietestMoment (recording);

    const auto count = static_cast<int> (taps.size());

    if (count != 1 && (count == 0 || count % lugs != 0))
        throw modal::InputError::fault (
            field, "has " + (count == 0 ? "no" : std::to_string (count)) + " taps",
            std::to_string (lugs) + ", one beside each lug from lug 1 on (or " + std::to_string (2 * lugs) +
                " for twice round, or one tap alone, which tells the tension but not how even the head is). If the drum has " +
                std::to_string (lugs) +
                " lugs, listen to where each tap was found: one too soft or a knock too many is among them");

    RecordedLugCheck walk;

    for (std::size_t i = 0; i < taps.size(); ++i)
    {
        const bool isUsed = ! taps[i].isUnusable();
        walk.remarks += remarksOn (taps[i], "Tap " + std::to_string (i + 1), isUsed);

        if (isUsed)
            walk.taps.push_back (heardTap (recording, taps[i], quiet, static_cast<int> (i) % lugs, hasPatch));
    }

    return walk;
}

} // namespace listening
