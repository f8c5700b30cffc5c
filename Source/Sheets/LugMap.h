#pragma once

#include "Canvas.h"

namespace sheets
{

/** A head with its lugs: each with its number, its place in the cross and a label. Lug 1 is at the right, the others follow
    counterclockwise. */
struct LugMap
{
    int lugs = 8;
    std::vector<int> order{};          ///< lugs from 0 in the order of the cross
    std::vector<std::string> labels{}; ///< by lug; empty: none
    std::vector<std::string> words{};  ///< lines in the middle
};

/** Draws it about a middle; labels stand up to 32 points outside the radius. */
void draw (Canvas&, const LugMap&, double x, double y, double radius);

} // namespace sheets
