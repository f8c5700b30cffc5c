#include "tests/Catch.h"

#include "Engine/Microphone.h"
#include "Modal/InputError.h"

#include <limits>

namespace
{
constexpr double radius = 0.1778, depth = 0.127; // m

void place (double x, double y, double z)
{
    engine::check ({ "test", x, y, z }, radius, depth, "microphone test");
}
} // namespace

TEST_CASE ("Microphones must be outside the drum and within their distance limits")
{
    for (const auto& microphone : engine::defaultMicrophones (depth))
        CHECK_NOTHROW (engine::check (microphone, radius, depth, microphone.name));

    // The nearest that the plugin's parameters give: above the head, below the drum, beside the shell.
    CHECK_NOTHROW (place (0.0, 0.0, 0.02));
    CHECK_NOTHROW (place (0.0, 0.0, -depth - 0.02));
    CHECK_NOTHROW (place (0.0, radius + 0.02, -0.05));
    CHECK_NOTHROW (place (12.0, 9.0, 0.0));

    CHECK_THROWS_AS (place (0.0, 0.0, 0.0), modal::InputError);
    CHECK_THROWS_AS (place (0.1, 0.0, 0.019), modal::InputError);
    CHECK_THROWS_AS (place (0.1, 0.0, -0.1), modal::InputError);
    CHECK_THROWS_AS (place (0.0, radius + 0.019, -0.05), modal::InputError);
    CHECK_THROWS_AS (place (0.0, 0.0, -depth), modal::InputError);
    CHECK_THROWS_AS (place (12.0, 12.0, 12.0), modal::InputError);
    CHECK_THROWS_AS (place (0.0, std::numeric_limits<double>::quiet_NaN(), 1.0), modal::InputError);

    CHECK_THROWS_WITH (place (0.1, 0.0, -0.1), "microphone test: a place inside the drum cannot be used; allowed: 20 mm or more "
                                               "from heads and shell, outside, up to 20 m away");
}
