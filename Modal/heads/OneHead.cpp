#include "OneHead.h"

#include <utility>

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

DrumSpec asTapped (DrumSpec drum, HeadSide side)
{
    const auto bottom = drum.bottom;
    drum = withOneHead (std::move (drum), side);

    if (bottom == Bottom::open)
        drum.bottom = bottom;

    return drum;
}

DrumSpec withHeadOnTop (DrumSpec drum, HeadSide side)
{
    if (side == HeadSide::batter)
        return drum;

    std::swap (drum.batter, drum.resonant);

    for (auto& item : drum.muffling)
        item.head = item.head == HeadSide::batter ? HeadSide::resonant : HeadSide::batter;

    return drum;
}

} // namespace modal
