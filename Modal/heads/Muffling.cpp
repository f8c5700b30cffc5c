#include "Muffling.h"

#include "Modal/DrumNumbers.h"

namespace modal
{

void check (const Muffling& items, double radius)
{
    for (std::size_t i = 0; i < items.size(); ++i)
    {
        const auto& item = items[i];
        const auto where = "muffling " + std::to_string (i + 1);
        checkNumbers (item, where);

        if (item.shape == MufflingItem::Shape::patch)
            requireInRange (item.distance, { 0.0, radius, "m" }, where + " distance");
        else
            requireInRange (item.size, { numberOf (&MufflingItem::size).low, radius, "m" }, where + " size");
    }
}

} // namespace modal
