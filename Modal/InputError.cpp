#include "InputError.h"

#include <cmath>
#include <cstdio>

namespace modal
{

InputError::InputError (std::string fieldName, std::string givenValue, std::string allowedValues)
    : std::runtime_error (fieldName + ": " + givenValue + " cannot be used; allowed: " + allowedValues),
      fieldText (std::move (fieldName)), valueText (std::move (givenValue)), allowedText (std::move (allowedValues))
{
}

std::string asText (double value, int digits)
{
    char text[48];
    std::snprintf (text, sizeof (text), "%.*g", digits, value);
    return text;
}

double requireInRange (double value, const Range& range, const std::string& fieldName)
{
    if (std::isfinite (value) && value >= range.low && value <= range.high)
        return value;

    const std::string unit = *range.unit == '\0' ? "" : " " + std::string (range.unit);
    throw InputError (fieldName, asText (value) + unit, asText (range.low) + " to " + asText (range.high) + unit);
}

} // namespace modal
