#pragma once

#include "Drums.h"
#include "tests/Catch.h"

#include "reference/CompositeMembrane.h"

/** Checks the first three modes of orders 0 to 3 against a membrane of two densities; `accuracy` is relative. */
inline void checkLowestModes (const modal::DrumModes& modes, const reference::CompositeMembrane& exact, double accuracy)
{
    for (int m = 0; m <= 3; ++m)
    {
        const auto expected = exact.frequencies (m, 3);
        const auto found = drums::ofOrder (modes, m);
        REQUIRE (found.size() >= 3);
        for (std::size_t i = 0; i < 3; ++i)
        {
            CAPTURE (m, i);
            CHECK (found[i].frequency == Approx (expected[i]).epsilon (accuracy));
        }
    }
}
