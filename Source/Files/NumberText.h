#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace files
{

/** Takes a decimal number off the front of `text` ("14in" leaves "in"); nullopt, and `text` untouched, if there is none.
    Independent of the locale. Too large a number becomes infinite. */
std::optional<double> takeNumber (std::string_view& text);

/** The shortest text that reads back as exactly this finite number. */
std::string exactText (double);

} // namespace files
