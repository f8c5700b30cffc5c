#include "LiveStrikes.h"

#include <algorithm>
#include <utility>

namespace listening
{

void LiveStrikes::add (const float* samples, std::size_t count)
{
    incoming.add (samples, count, [this] (const LiveTap& found)
                  { take (std::make_shared<const Recording> (found.window), found.tap, found.quiet, found.start); });
}

std::vector<HeardPartials> LiveStrikes::add (std::shared_ptr<const Recording> recording)
{
    std::vector<HeardPartials> used;
    const double quiet = quietestMoment (*recording);

    for (const auto& tap : findTaps (*recording))
        if (take (recording, tap, quiet, tap.start))
            used.push_back (last);

    return used;
}

/** False if the strike cannot be used. */
bool LiveStrikes::take (std::shared_ptr<const Recording> recording, const Tap& tap, double quiet, double start)
{
    if (! tap.has (Trouble::noisy) && ! tap.has (Trouble::cutShort))
        lastStrike = Strike{ recording, tap, quiet };

    if (! tap.canBeStrike())
    {
        lastRemark = { .kind = Remark::Kind::troubles, .troubles = tap.troubles };
        return false;
    }

    if (heard.size() == most)
        heard.erase (heard.begin());

    last = { start, partialsOf (*recording, tap, quiet) };
    heard.push_back ({ std::move (recording), tap, quiet });
    lastRemark = { .kind = Remark::Kind::heard };
    return true;
}

void LiveStrikes::interrupt (Remark why)
{
    incoming.interrupt();

    if (why.kind != Remark::Kind::none)
        lastRemark = std::move (why);
}

bool LiveStrikes::deleteLast()
{
    if (heard.empty())
        return false;

    heard.pop_back();
    lastRemark = { .kind = Remark::Kind::deleted };
    return true;
}

} // namespace listening
