#include "Place/Images.h"

#include "Modal/InputError.h"
#include "tests/Catch.h"

#include <algorithm>
#include <cmath>
#include <random>
#include <set>

using namespace place;

TEST_CASE ("Images are the drum mirrored in the sides, again and again")
{
    const Place place;
    const Box box (place);
    CHECK (box.length * box.width * box.height == Approx (place.volume));
    const auto found = images (place, 64);
    REQUIRE (found.size() == 65);

    // Allen & Berkley, JASA 65 (1979) 943: mirror in each of the six sides what is there already; each new place counts once.
    struct Mirrored
    {
        Point at;
        int reflections;
    };
    const std::array<double, 3> sides{ box.length, box.width, box.height };
    std::vector<Mirrored> all{ { drumIn (place, box), 0 } };
    std::set<std::array<long, 3>> seen;
    const auto key = [] (const Point& p) {
        return std::array<long, 3>{ std::lround (1.0e6 * p[0]), std::lround (1.0e6 * p[1]), std::lround (1.0e6 * p[2]) };
    };
    seen.insert (key (all.front().at));
    for (std::size_t i = 0; i < all.size() && all[i].reflections < 12; ++i)
        for (std::size_t axis = 0; axis < 3; ++axis)
            for (const double side : { 0.0, sides[axis] })
            {
                auto next = all[i];
                next.at[axis] = 2.0 * side - next.at[axis];
                ++next.reflections;
                if (seen.insert (key (next.at)).second)
                    all.push_back (next);
            }
    const auto listener = listenerIn (place, box);
    std::sort (all.begin(), all.end(),
               [&] (const auto& a, const auto& b) { return distance (a.at, listener) < distance (b.at, listener); });

    for (std::size_t i = 0; i < found.size(); ++i)
    {
        CHECK (found[i].distance == Approx (distance (all[i].at, listener)));
        CHECK (found[i].reflections == all[i].reflections);
        for (std::size_t axis = 0; axis < 3; ++axis)
            CHECK (found[i].from[axis] * found[i].distance == Approx (all[i].at[axis] - listener[axis]).margin (1.0e-9));
    }
}

TEST_CASE ("In the open air there is the drum and its image in the ground")
{
    Place place;
    place.kind = Place::Kind::openAir;
    const auto found = images (place, 64);
    REQUIRE (found.size() == 2);
    CHECK (found[0].reflections == 0);
    CHECK (found[1].reflections == 1);
    CHECK (found[1].distance > found[0].distance);
    CHECK (found[1].from[2] < 0.0);
}

TEST_CASE ("A place that cannot be is refused with the field, the value and the range")
{
    const auto fieldOf = [] (auto change)
    {
        Place place;
        change (place);
        try
        {
            check (place, "place");
        }
        catch (const modal::InputError& e)
        {
            return e.field();
        }
        return std::string();
    };
    CHECK (fieldOf ([] (Place&) {}) == "");
    CHECK (fieldOf ([] (Place& p) { p.volume = 5.0; }) == "place volume");
    CHECK (fieldOf ([] (Place& p) { p.listenerDistance = 100.0; }) == "place listener distance");
    CHECK (fieldOf ([] (Place& p) { p.drumHeight = 9.0; }) == "place drum height");
    CHECK (fieldOf ([] (Place& p) { p.listenerAside = -8.0; }) == "place listener aside");
    CHECK (fieldOf ([] (Place& p) { p.times[2] = 0.01; }) == "place reverberation at 500 Hz");
    // ISO 9613-1: air of 20 °C and 50 % takes 105 dB/km at 8 kHz, which is 1.66 s without any other loss.
    CHECK (fieldOf ([] (Place& p) { p.times[6] = 1.7; }) == "place reverberation at 8000 Hz");
    CHECK (fieldOf ([] (Place& p) { p.times[6] = 1.6; }) == "");
    CHECK (fieldOf ([] (Place& p) { p.times[6] = std::nan (""); }) == "place reverberation at 8000 Hz");
}

TEST_CASE ("Any numbers within their ranges can be made a possible place")
{
    std::mt19937 random (5);
    for (int i = 0; i < 500; ++i)
    {
        Place place;
        for (const auto& number : modal::numbersOf<Place>)
            place.*number.member = std::uniform_real_distribution (number.low, number.high) (random);
        if (i % 2 == 0)
            place.volume = std::uniform_real_distribution (10.0, 200.0) (random);
        for (auto& time : place.times)
            time = std::uniform_real_distribution (timeRange.low, timeRange.high) (random);
        const auto possible = madePossible (place);
        const Box box (possible);
        const auto drum = drumIn (possible, box), listener = listenerIn (possible, box);
        const std::array<double, 3> sides{ box.length, box.width, box.height };
        for (std::size_t axis = 0; axis < 3; ++axis)
        {
            CHECK (drum[axis] > 0.0);
            CHECK (drum[axis] < sides[axis]);
            CHECK (listener[axis] > 0.0);
            CHECK (listener[axis] < sides[axis]);
        }
        CHECK (distance (drum, listener) > 0.1);
    }
}
