#include "Muffling.h"

#include "Modal/InputError.h"

namespace modal
{

void check (const Muffling& items, double radius)
{
    for (std::size_t i = 0; i < items.size(); ++i)
    {
        const auto& item = items[i];
        const auto where = "muffling " + std::to_string (i + 1) + " ";
        const double radiusInMillimetres = 1000.0 * radius;

        requireInRange (1000.0 * item.size, { 5.0, 200.0, "mm" }, where + "size");
        requireInRange (1000.0 * item.mass, { 0.0, 100.0, "g" }, where + "mass");
        requireInRange (item.resistance, { 0.0, 1.0e5, "N s/m3" }, where + "resistance");
        requireInRange (item.angle, { -7.0, 7.0, "rad" }, where + "angle");

        if (item.shape == MufflingItem::Shape::patch)
            requireInRange (1000.0 * item.distance, { 0.0, radiusInMillimetres, "mm" }, where + "distance");
        else
            requireInRange (1000.0 * item.size, { 5.0, radiusInMillimetres, "mm" }, where + "width");
    }
}

} // namespace modal
