#include "NumberText.h"

#include <array>
#include <charconv>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <limits>

namespace modal
{

namespace
{

#if defined(__cpp_lib_to_chars)

/** What std::to_chars() makes of these arguments. */
template <class... Arguments>
std::string written (Arguments... arguments)
{
    std::array<char, 400> buffer; // the largest double has 309 digits before the point
    const auto end = std::to_chars (buffer.data(), buffer.data() + buffer.size(), arguments...).ptr;
    return { buffer.data(), end };
}

std::from_chars_result readNumber (std::string_view text, double& value)
{
    return std::from_chars (text.data(), text.data() + text.size(), value);
}

#else

// LLVM's library has these for integers only before versions 14 and 20. Programs in WebAssembly have no locale but "C".

std::string written (double value, std::chars_format format, int digits)
{
    std::array<char, 400> buffer;
    const int size =
        std::snprintf (buffer.data(), buffer.size(), format == std::chars_format::fixed ? "%.*f" : "%.*g", digits, value);
    return { buffer.data(), static_cast<std::size_t> (size) };
}

/** With as few digits as read back exactly. */
std::string written (double value)
{
    constexpr int fewest = std::numeric_limits<double>::digits10, most = std::numeric_limits<double>::max_digits10;
    int digits = fewest;

    while (digits < most && std::strtod (written (value, std::chars_format::general, digits).c_str(), nullptr) != value)
        ++digits;

    return written (value, std::chars_format::general, digits);
}

/** For a number that begins with a digit or a point. */
std::from_chars_result readNumber (std::string_view text, double& value)
{
    const std::string number (text.substr (0, text.find_first_not_of ("0123456789.eE+-")));
    char* end = nullptr;
    value = std::strtod (number.c_str(), &end);
    const bool isTooSmall = value == 0.0 && number.find_first_of ("123456789") < number.find_first_of ("eE");
    return { text.data() + (end - number.c_str()), end == number.c_str()              ? std::errc::invalid_argument
                                                   : std::isinf (value) || isTooSmall ? std::errc::result_out_of_range
                                                                                      : std::errc() };
}

#endif

double withoutNegativeZero (double value)
{
    return value == 0.0 ? 0.0 : value;
}

} // namespace

std::string asText (double value, int digits)
{
    return written (withoutNegativeZero (value), std::chars_format::general, digits);
}

std::string fixedText (double value, int decimals)
{
    auto text = written (value, std::chars_format::fixed, decimals);

    // A negative number that is rounded to zero has no sign.
    if (text.front() == '-' && text.find_first_not_of ("-0.") == text.npos)
        text.erase (0, 1);

    return text;
}

std::string signedText (double value, int decimals)
{
    const auto text = fixedText (value, decimals);
    return text.front() == '-' ? text : "+" + text;
}

std::string exactText (double value)
{
    return written (withoutNegativeZero (value));
}

std::optional<double> takeNumber (std::string_view& text)
{
    // std::from_chars() takes no plus sign, but does take "inf" and "nan".
    const bool hasSign = text.starts_with ('+') || text.starts_with ('-');
    const auto unsignedText = text.substr (hasSign ? 1 : 0);

    if (unsignedText.empty() || (unsignedText.front() != '.' && (unsignedText.front() < '0' || unsignedText.front() > '9')))
        return std::nullopt;

    double value = 0.0;
    const auto [end, error] = readNumber (unsignedText, value);

    if (error == std::errc::invalid_argument)
        return std::nullopt;

    if (error == std::errc::result_out_of_range)
    {
        const auto number = unsignedText.substr (0, static_cast<std::size_t> (end - unsignedText.data()));
        const bool isSmall = number.find ("e-") != number.npos || number.find ("E-") != number.npos || number.front() == '0' ||
                             number.front() == '.';
        value = isSmall ? 0.0 : std::numeric_limits<double>::infinity();
    }

    const bool isNegative = text.front() == '-';
    text.remove_prefix (static_cast<std::size_t> (end - text.data()));
    return isNegative ? -value : value;
}

} // namespace modal
