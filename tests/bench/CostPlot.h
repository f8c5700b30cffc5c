#pragma once

#include <string>
#include <vector>

namespace bench
{

/** A cost measured at one size. */
struct CostPoint
{
    double size;        ///< what the curve's horizontal axis counts
    double nanoseconds; ///< a sample
};

/** One panel of the plot. */
struct CostCurve
{
    std::string title; ///< what is counted
    std::vector<CostPoint> points;
};

/** Writes the curves side by side as one SVG picture; false if the file cannot be written. */
bool writeCostPlot (const std::string& file, const std::vector<CostCurve>&);

} // namespace bench
