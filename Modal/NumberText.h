#pragma once

#include <optional>
#include <string>
#include <string_view>

/** Numbers to text and back, always with a decimal point, whatever the locale. */
namespace modal
{

/** Up to `digits` significant digits without trailing zeros: asText (0.35560) = "0.3556". */
std::string asText (double value, int digits = 6);

/** With a fixed number of decimals: fixedText (3.14159, 2) = "3.14". */
std::string fixedText (double value, int decimals);

/** The same with its sign: "+62", "-3". */
std::string signedText (double value, int decimals);

/** The shortest text that reads back as exactly this number. */
std::string exactText (double value);

/** Takes a decimal number off the front of `text` ("14in" leaves "in"). Returns nullopt and leaves `text` unchanged if there
   is none. A number too large for a double becomes infinite, one too small becomes 0. */
std::optional<double> takeNumber (std::string_view& text);

} // namespace modal
