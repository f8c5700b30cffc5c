#pragma once

#include <string_view>

/** Whether a text has this part. */
inline bool contains (std::string_view text, std::string_view part)
{
    return text.find (part) != std::string_view::npos;
}
