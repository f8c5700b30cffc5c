#pragma once

namespace bench
{

/** Prints what the two moments cost at which an inner loop has to wait: when a stroke lands and when a new model is handed over,
    both with as many sticks on the head as there may be. Median of many, for drums of two sizes that are even, uneven and
    muffled, each with its ratio to the even one of its size and its share of the time that 64 samples last at 48 kHz.
    @param repeats  measurements of each; the median of fewer than some 100 says little */
void printMomentCosts (int repeats);

} // namespace bench
