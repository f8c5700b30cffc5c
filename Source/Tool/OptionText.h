#pragma once

#include "Arguments.h"

#include "Files/Fields.h"

namespace tool
{

/** Sets a number of a drum from the option that stands for it, if it is given. */
template <class Owner>
void overrideField (const Arguments& arguments, const char* option, const files::NumberFields<Owner>& fields, const char* name,
                    Owner& owner)
{
    const auto& field = files::fieldNamed (fields, name);

    if (const auto text = arguments.value (option))
        owner.*field.member = files::readQuantity (*text, *field.quantity, field.limits, std::string ("--") + option);
}

/** The number that an option gives, or the usual one. */
double readNumber (const Arguments&, const char* option, const files::Quantity&, files::Limits, double usual);

/** A whole number. Throws modal::InputError on `field`. */
int readCount (const std::string& text, int low, int high, const std::string& field);

/** `--date`, as in ISO 8601: 2024-05-17; "" without it. Throws modal::InputError for a day that is in no calendar. */
std::string readDate (const Arguments&);

/** Which of the words an option says, if it is given. */
std::optional<std::size_t> readWord (const Arguments&, const char* option, const std::vector<std::string>& words);

/** Sets a value that one of the words stands for, in the order of the enumeration. */
template <class Enumeration>
void overrideChoice (const Arguments& arguments, const char* option, const std::vector<std::string>& words, Enumeration& choice)
{
    if (const auto index = readWord (arguments, option, words))
        choice = static_cast<Enumeration> (*index);
}

} // namespace tool
