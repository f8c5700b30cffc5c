#pragma once

#include <cstdio>
#include <string>

namespace sheets
{

/** With a fixed number of decimals. */
inline std::string number (double value, int decimals)
{
    char text[48];
    std::snprintf (text, sizeof (text), "%.*f", decimals, value);
    return text;
}

} // namespace sheets
