#include "NumberText.h"

#include <array>
#include <charconv>
#include <cmath>
#include <limits>

namespace modal
{

namespace
{

/** What std::to_chars() makes of these arguments. */
template <class... Arguments>
std::string written (Arguments... arguments)
{
    std::array<char, 400> buffer; // the largest double has 309 digits before the point
    const auto end = std::to_chars (buffer.data(), buffer.data() + buffer.size(), arguments...).ptr;
    return { buffer.data(), end };
}

} // namespace

std::string asText (double value, int digits)
{
    return written (value, std::chars_format::general, digits);
}

std::string fixedText (double value, int decimals)
{
    return written (value, std::chars_format::fixed, decimals);
}

std::string signedText (double value, int decimals)
{
    return (std::signbit (value) ? "" : "+") + fixedText (value, decimals);
}

std::string exactText (double value)
{
    return written (value);
}

std::optional<double> takeNumber (std::string_view& text)
{
    // std::from_chars() takes no plus sign, but does take "inf" and "nan".
    const bool hasSign = text.starts_with ('+') || text.starts_with ('-');
    const auto unsignedText = text.substr (hasSign ? 1 : 0);

    if (unsignedText.empty() || (unsignedText.front() != '.' && (unsignedText.front() < '0' || unsignedText.front() > '9')))
        return std::nullopt;

    double value = 0.0;
    const auto [end, error] = std::from_chars (unsignedText.data(), unsignedText.data() + unsignedText.size(), value);

    if (error == std::errc::invalid_argument)
        return std::nullopt;

    if (error == std::errc::result_out_of_range)
    {
        const std::string_view number (unsignedText.data(), end);
        const bool isSmall = number.find ("e-") != number.npos || number.find ("E-") != number.npos || number.front() == '0' ||
                             number.front() == '.';
        value = isSmall ? 0.0 : std::numeric_limits<double>::infinity();
    }

    const bool isNegative = text.front() == '-';
    text.remove_prefix (static_cast<std::size_t> (end - text.data()));
    return isNegative ? -value : value;
}

} // namespace modal
