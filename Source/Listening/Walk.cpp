#include "Walk.h"

#include "Partials.h"

#include "Modal/InputError.h"

namespace listening
{

modal::HeardTap heardTap (const Recording& recording, const Tap& tap, double quiet, int lug, bool hasPatch)
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

RecordedWalk hearWalk (const Recording& recording, int lugs, bool hasPatch, const std::string& field)
{
    const auto taps = findTaps (recording);
    const auto quiet = quietestMoment (recording);

    if (taps.empty() || static_cast<int> (taps.size()) > lugs)
        throw modal::InputError (field, std::to_string (taps.size()) + " taps",
                                 "1 to " + std::to_string (lugs) + " taps: one beside each lug, lug 1 first, a second between");

    RecordedWalk walk;

    for (std::size_t i = 0; i < taps.size(); ++i)
    {
        const bool isUsed = ! taps[i].isUnusable();
        walk.remarks += remarksOn (taps[i], "Tap " + std::to_string (i + 1), isUsed);

        if (isUsed)
            walk.taps.push_back (heardTap (recording, taps[i], quiet, static_cast<int> (i), hasPatch));
    }

    return walk;
}

} // namespace listening
