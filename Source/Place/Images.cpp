#include "Images.h"

#include "Modal/Units.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace place
{
namespace
{

/** A coordinate of an image and how many sides across that axis the path meets. */
struct Mirrored
{
    double coordinate;
    int reflections;
};

/** Mirrored coordinates within `reach` of the listener. */
std::vector<Mirrored> mirrored (double drum, double listener, double side, double reach)
{
    std::vector<Mirrored> all;
    const int most = static_cast<int> (std::ceil (reach / (2.0 * side))) + 1;
    for (int n = -most; n <= most; ++n)
        for (const int flipped : { 0, 1 })
        {
            const double coordinate = (flipped == 1 ? -drum : drum) + 2.0 * n * side;
            if (std::abs (coordinate - listener) <= reach)
                all.push_back ({ coordinate, std::abs (n - flipped) + std::abs (n) });
        }
    return all;
}

Image imageAt (const Point& source, const Point& listener, int reflections)
{
    const double far = distance (source, listener);
    return { far,
             reflections,
             { (source[0] - listener[0]) / far, (source[1] - listener[1]) / far, (source[2] - listener[2]) / far } };
}

std::vector<Image> within (double reach, const Point& drum, const Point& listener, const Box& box)
{
    const auto along = mirrored (drum[0], listener[0], box.length, reach),
               across = mirrored (drum[1], listener[1], box.width, reach),
               up = mirrored (drum[2], listener[2], box.height, reach);
    std::vector<Image> found;
    for (const auto& x : along)
        for (const auto& y : across)
            for (const auto& z : up)
            {
                const auto image = imageAt ({ x.coordinate, y.coordinate, z.coordinate }, listener,
                                            x.reflections + y.reflections + z.reflections);
                if (image.distance <= reach)
                    found.push_back (image);
            }
    return found;
}

} // namespace

std::vector<Image> images (const Place& place, std::size_t count)
{
    const Box box (place);
    const auto drum = drumIn (place, box), listener = listenerIn (place, box);

    if (place.kind == Place::Kind::openAir)
        return { imageAt (drum, listener, 0), imageAt ({ drum[0], drum[1], -drum[2] }, listener, 1) };

    // One image in each volume of the room, on average.
    double reach = std::cbrt (place.volume * static_cast<double> (count + 1) * 0.75 / modal::units::pi);
    auto found = within (reach, drum, listener, box);
    while (found.size() <= count)
        found = within (reach *= 1.2, drum, listener, box);
    std::sort (found.begin(), found.end(), [] (const Image& a, const Image& b) { return a.distance < b.distance; });
    found.resize (count + 1);
    return found;
}

} // namespace place
