#pragma once

#include "NumberText.h"

#include <stdexcept>
#include <string>

namespace modal
{

/** An input value that cannot be used.

    `what()` reads as one sentence: the field, the value, and what is allowed; or the field, what is the matter with it, and what
    it needs.
*/
class InputError : public std::runtime_error
{
public:
    InputError (std::string fieldName, std::string givenValue, std::string allowedValues);

    /** For errors without a value: "--output" "is missing" "a file to write". The fault continues after the field's name. */
    static InputError fault (std::string fieldName, std::string whatIsTheMatter, std::string needed);

    /** The same error under another name of the field. */
    InputError of (std::string fieldName) const;

    /** The same error with more allowed values. */
    InputError orAllowed (const std::string& more) const;

    const std::string& field() const noexcept { return fieldText; }
    const std::string& value() const noexcept { return valueText; }     ///< or what is the matter
    const std::string& allowed() const noexcept { return allowedText; } ///< or what is needed

private:
    enum class Kind
    {
        value,
        fault
    };
    InputError (Kind, std::string fieldName, std::string givenValue, std::string allowedValues);

    Kind kind;
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
} // namespace modal
