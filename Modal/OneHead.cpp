#include "OneHead.h"

namespace modal
{

DrumSpec withOneHead (DrumSpec drum, HeadSide side)
{
    if (side == HeadSide::resonant)
        drum.batter = drum.resonant;

    std::erase_if (drum.muffling, [side] (const MufflingItem& item) { return item.head != side; });

    for (auto& item : drum.muffling)
        item.head = HeadSide::batter;

    drum.bottom = Bottom::closed;
    return drum;
}

} // namespace modal
