#pragma once

#include "Arguments.h"

#include "Files/Fields.h"

namespace tool
{

/** Sets a number of a drum from the option that stands for it, if it is given. */
template <class Owner>
void overrideNumber (const Arguments& arguments, const std::string& option, double Owner::*member, Owner& owner)
{
    if (const auto text = arguments.value (option))
        owner.*member = files::readQuantity (*text, member, "--" + option);
}

/** The number that an option gives, or the usual one. */
double readNumber (const Arguments&, const char* option, const files::Quantity&, files::Limits, double usual);

/** Beats per minute that `--tempo` gives, 20 to 400, or the usual ones. */
double readTempo (const Arguments&, double usual);

/** A whole number. Throws modal::InputError on `field`. */
int readCount (const std::string& text, int low, int high, const std::string& field);

template <class Owner>
int readCount (const std::string& text, const modal::Count<Owner>& count, const std::string& field)
{
    return readCount (text, static_cast<int> (count.low), static_cast<int> (count.high), field);
}

/** The parts between a separator, without the blanks around them; an empty text is one empty part. */
std::vector<std::string> splitAt (const std::string& text, char separator);

/** Throws modal::InputError on `field` unless there are as many values as lugs. */
void requireOnePerLug (std::size_t values, int lugs, const std::string& field);

/** "G#3, G#3 -5, 207Hz" to Hz. Throws modal::InputError on `field`. */
std::vector<double> readNotes (const std::string& text, modal::ConcertPitch, const std::string& field);

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
