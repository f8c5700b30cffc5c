#include "NumberText.h"

#include <array>
#include <charconv>
#include <cmath>
#include <limits>
#include <locale>
#include <sstream>

namespace files
{
namespace
{
std::size_t endOfDigits (std::string_view text, std::size_t at)
{
    while (at < text.size() && text[at] >= '0' && text[at] <= '9')
        ++at;

    return at;
}

std::size_t endOfSign (std::string_view text, std::size_t at)
{
    return at < text.size() && (text[at] == '+' || text[at] == '-') ? at + 1 : at;
}

/** Where the number at the front of `text` ends; 0 if there is none. */
std::size_t endOfNumber (std::string_view text)
{
    const auto whole = endOfSign (text, 0);
    auto end = endOfDigits (text, whole);
    auto digits = end - whole;

    if (end < text.size() && text[end] == '.')
    {
        const auto fraction = end + 1;
        end = endOfDigits (text, fraction);
        digits += end - fraction;
    }

    if (digits == 0)
        return 0;

    if (end < text.size() && (text[end] == 'e' || text[end] == 'E'))
    {
        const auto exponent = endOfSign (text, end + 1);

        if (const auto last = endOfDigits (text, exponent); last > exponent)
            end = last;
    }

    return end;
}
} // namespace

std::optional<double> takeNumber (std::string_view& text)
{
    const auto length = endOfNumber (text);

    if (length == 0)
        return std::nullopt;

    // A stream rather than from_chars: not every standard library reads floating point with the latter yet.
    std::istringstream stream{ std::string (text.substr (0, length)) };
    stream.imbue (std::locale::classic());
    double value = 0.0;
    stream >> value;

    // Streams clamp what does not fit and set the fail bit. Too small is as good as zero, too large is infinite.
    if (stream.fail() && std::abs (value) > 1.0)
        value = std::copysign (std::numeric_limits<double>::infinity(), value);

    text.remove_prefix (length);
    return value;
}

std::string exactText (double value)
{
    std::array<char, 40> buffer{};
    const auto result = std::to_chars (buffer.data(), buffer.data() + buffer.size(), value);
    return { buffer.data(), result.ptr };
}

} // namespace files
