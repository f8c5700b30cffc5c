#pragma once

#include "Canvas.h"

namespace sheets
{

/** What stands beside a lug. */
struct LugLabel
{
    std::vector<std::string> lines{};
    bool isVague = false; ///< less than its own uncertainty: drawn faintly
};

/** A head with its lugs: each with its number, its place in the cross and a label. Lug 1 is at the right; the others follow
    counterclockwise on a head seen from above, clockwise on one seen from below, so that equal numbers are the two ends of one
   line of the shell. */
struct LugMap
{
    int lugs = 8;
    bool isFromBelow = false;
    std::vector<int> order{};         ///< lugs from 0 in the order of the cross
    std::vector<LugLabel> labels{};   ///< by lug; empty: none
    std::vector<std::string> words{}; ///< lines in the middle
};

/** Draws it about a middle; labels stand up to 32 points outside the radius. */
void draw (Canvas&, const LugMap&, double x, double y, double radius);

} // namespace sheets
