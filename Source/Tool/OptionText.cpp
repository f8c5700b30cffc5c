#include "OptionText.h"

#include "Files/NearestWord.h"
#include "Files/TuningRequest.h"
#include "Modal/InputError.h"

#include <algorithm>
#include <cctype>
#include <chrono>
#include <cmath>

namespace tool
{

using modal::InputError;

double readNumber (const Arguments& arguments, const char* option, const files::Quantity& quantity, files::Limits limits,
                   double usual)
{
    const auto text = arguments.value (option);
    return text ? files::readQuantity (*text, quantity, limits, std::string ("--") + option) : usual;
}

double readTempo (const Arguments& arguments, double usual)
{
    static const files::Quantity tempo{ "tempo", { { "bpm", "bpm", 1.0 } } };
    return readNumber (arguments, "tempo", tempo, { 20.0, 400.0 }, usual);
}

int readCount (const std::string& text, int low, int high, const std::string& field)
{
    std::string_view rest = text;
    const auto number = modal::takeNumber (rest);

    if (! number || ! rest.empty() || *number != std::floor (*number) || *number < low || *number > high)
        throw InputError (field, '"' + text + '"', "a whole number, " + std::to_string (low) + " to " + std::to_string (high));

    return static_cast<int> (*number);
}

std::vector<std::string> splitAt (const std::string& text, char separator)
{
    std::vector<std::string> parts;

    for (std::size_t begin = 0, end = 0; end != std::string::npos; begin = end + 1)
    {
        end = text.find (separator, begin);
        const auto part = text.substr (begin, end - begin);
        const auto first = part.find_first_not_of (' '), last = part.find_last_not_of (' ');
        parts.push_back (first == std::string::npos ? "" : part.substr (first, last - first + 1));
    }

    return parts;
}

void requireOnePerLug (std::size_t values, int lugs, const std::string& field)
{
    if (values != static_cast<std::size_t> (lugs))
        throw InputError (field, std::to_string (values) + (values == 1 ? " value" : " values"),
                          "one for each of the " + std::to_string (lugs) + " lugs");
}

std::vector<double> readNotes (const std::string& text, modal::ConcertPitch pitch, const std::string& field)
{
    std::vector<double> notes;

    for (const auto& part : splitAt (text, ','))
        notes.push_back (files::readNote (part, pitch, field));

    return notes;
}

std::string readDate (const Arguments& arguments)
{
    const auto text = arguments.value ("date");

    if (! text)
        return {};

    constexpr std::string_view form = "dddd-dd-dd";
    const auto fits = [] (char given, char wanted)
    { return wanted == 'd' ? std::isdigit (static_cast<unsigned char> (given)) != 0 : given == wanted; };
    const auto number = [&] (std::size_t at, std::size_t digits) { return std::stoi (text->substr (at, digits)); };
    const auto isDay = [&]
    {
        using namespace std::chrono;
        return year_month_day{ year (number (0, 4)), month (static_cast<unsigned> (number (5, 2))),
                               day (static_cast<unsigned> (number (8, 2))) }
            .ok();
    };

    if (! std::equal (text->begin(), text->end(), form.begin(), form.end(), fits) || ! isDay())
        throw InputError ("--date", '"' + *text + '"', "a day of the calendar as year, month and day: 2024-05-17");

    return *text;
}

std::optional<std::size_t> readWord (const Arguments& arguments, const char* option, const std::vector<std::string>& words)
{
    const auto text = arguments.value (option);

    if (! text)
        return std::nullopt;

    const auto found = std::find (words.begin(), words.end(), *text);

    if (found == words.end())
        throw InputError (std::string ("--") + option, '"' + *text + '"', files::listedFor (*text, words));

    return static_cast<std::size_t> (found - words.begin());
}

} // namespace tool
