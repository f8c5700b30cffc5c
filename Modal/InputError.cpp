#include "InputError.h"

#include <cmath>

namespace modal
{

InputError::InputError (Kind k, std::string fieldName, std::string givenValue, std::string allowedValues)
    : std::runtime_error (k == Kind::value ? fieldName + ": " + givenValue + " cannot be used; allowed: " + allowedValues
                                           : fieldName + " " + givenValue + "; needed: " + allowedValues),
      kind (k), fieldText (std::move (fieldName)), valueText (std::move (givenValue)), allowedText (std::move (allowedValues))
{
}

InputError::InputError (std::string fieldName, std::string givenValue, std::string allowedValues)
    : InputError (Kind::value, std::move (fieldName), std::move (givenValue), std::move (allowedValues))
{
}

InputError InputError::fault (std::string fieldName, std::string whatIsTheMatter, std::string needed)
{
    return { Kind::fault, std::move (fieldName), std::move (whatIsTheMatter), std::move (needed) };
}

InputError InputError::of (std::string fieldName) const
{
    return { kind, std::move (fieldName), valueText, allowedText };
}

InputError InputError::orAllowed (const std::string& more) const
{
    return { kind, fieldText, valueText, allowedText + more };
}

double requireInRange (double value, const Range& range, const std::string& fieldName)
{
    if (std::isfinite (value) && value >= range.low && value <= range.high)
        return value;

    const std::string unit = *range.unit == '\0' ? "" : " " + std::string (range.unit);
    throw InputError (fieldName, asText (value) + unit, asText (range.low) + " to " + asText (range.high) + unit);
}

} // namespace modal
