#pragma once

#include <stdexcept>
#include <string>

namespace modal
{

/** A value that a person gave and that cannot be used.

    `what()` reads as one sentence: the field, the value, and what is allowed.
*/
class InputError : public std::runtime_error
{
public:
    InputError (std::string fieldName, std::string givenValue, std::string allowedValues);

    const std::string& field() const noexcept { return fieldText; }
    const std::string& value() const noexcept { return valueText; }
    const std::string& allowed() const noexcept { return allowedText; }

private:
    std::string fieldText, valueText, allowedText;
};

/** A closed range of allowed values with the unit they are in ("mm", "N/m", "" for a count). */
struct Range
{
    double low;
    double high;
    const char* unit;
};

/** Throws InputError unless `value` is finite and lies in `range`; returns the value. */
double requireInRange (double value, const Range& range, const std::string& fieldName);

/** A number as a person would write it: up to `digits` significant digits, no trailing zeros. */
std::string asText (double value, int digits = 6);

} // namespace modal
