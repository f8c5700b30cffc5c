#pragma once

#include "Canvas.h"

namespace sheets
{

/** Text beside a lug. */
struct LugLabel
{
    std::vector<std::string> lines{};
    bool isUncertain = false; ///< less than its own uncertainty: drawn in grey
};

/** A head with its numbered lugs, each with a label. Lug 1 is at the top. The others follow clockwise on a head seen from above,
    counterclockwise on one seen from below: equal numbers are on one line of the shell. */
struct LugMap
{
    int lugs = 8;
    bool isFromBelow = false;
    std::vector<LugLabel> labels{};   ///< by lug; empty: none
    std::vector<std::string> words{}; ///< lines in the centre
};

/** Draws it around a centre; labels reach up to 32 points outside the radius. */
void draw (Canvas&, const LugMap&, double x, double y, double radius);

} // namespace sheets
