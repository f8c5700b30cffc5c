#include "LugCheck.h"

#include "Partials.h"

#include "Modal/InputError.h"

namespace listening
{

fitting::HeardTap heardTap (const Recording& recording, const Tap& tap, double quiet, int lug, bool hasPatch)
{
    return { .lug = lug, .hasPatch = hasPatch, .partials = partialsOf (recording, tap, quiet) };
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
                " for twice around, or a single tap, which gives the tension but not the evenness). If the drum has " +
                std::to_string (lugs) + " lugs, one tap was too soft to be found, or another knock was taken for one");

    RecordedLugCheck heard;

    for (int i = 0; i < count; ++i)
    {
        const auto& tap = taps[static_cast<std::size_t> (i)];
        const bool isUsed = ! tap.isUnusable();

        if (! tap.troubles.empty() || ! isUsed)
            heard.troubled.push_back ({ i + 1, tap.troubles, isUsed });

        if (! isUsed)
            continue;

        heard.taps.push_back (heardTap (recording, tap, quiet, i % lugs, hasPatch));
        heard.starts.push_back (tap.start);
    }

    return heard;
}

} // namespace listening
