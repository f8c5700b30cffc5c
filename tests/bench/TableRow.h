#pragma once

#include <cstdio>
#include <string>

namespace bench
{

/** Prints a row of the table in README.md beside this file: a figure with its unit. */
inline void printRow (const std::string& figure, double value, const char* unit)
{
    std::printf ("| %s | %.4g %s | | |\n", figure.c_str(), value, unit);
}

/** The same with the baseline's time over ours, both from the same run. */
inline void printRow (const std::string& figure, double value, const char* unit, const char* baseline, double ratio)
{
    std::printf ("| %s | %.4g %s | %s | %.2f |\n", figure.c_str(), value, unit, baseline, ratio);
}

} // namespace bench
