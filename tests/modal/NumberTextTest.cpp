#include "Modal/NumberText.h"

#include "Modal/pitch/Interval.h"
#include "Modal/pitch/Note.h"
#include "tests/Catch.h"
#include "tests/CommaLocale.h"

#include <cstdio>
#include <sstream>

TEST_CASE ("Numbers are written and read with a point under a locale that uses a comma", "[number text]")
{
    const tests::CommaLocale locale;

    // What would go wrong: a stream, and printf and strtod where the C locale could be made.
    std::ostringstream stream;
    stream << 1234.5;
    REQUIRE (stream.str() == "1.234,5");

    if (locale.hasC())
    {
        char text[16];
        std::snprintf (text, sizeof text, "%.1f", 1234.5);
        REQUIRE (std::string (text) == "1234,5");
        REQUIRE (std::strtod ("2.5", nullptr) == 2.0);
    }
    else
        WARN ("localedef is missing: only streams have a comma here, not printf and strtod");

    CHECK (modal::asText (1234.5) == "1234.5");
    CHECK (modal::fixedText (1234.5, 2) == "1234.50");
    CHECK (modal::signedText (2.25, 2) == "+2.25");
    CHECK (modal::exactText (0.1) == "0.1");

    std::string_view text = "2.5mm";
    CHECK (modal::takeNumber (text) == 2.5);
    CHECK (text == "mm");

    CHECK (modal::Interval::parse ("+5.5 st", "interval").semitones == 5.5);
    CHECK (modal::Note::parse ("G#3 +12.5", "note").cents == 12.5);
    CHECK (modal::Interval{ 30.5 }.name() == "+30.5 st");
}

TEST_CASE ("Zero has no minus sign", "[number text]")
{
    CHECK (modal::fixedText (-0.04, 1) == "0.0");
    CHECK (modal::fixedText (-0.06, 1) == "-0.1");
    CHECK (modal::signedText (-0.4, 0) == "+0");
    CHECK (modal::signedText (-0.6, 0) == "-1");
    CHECK (modal::asText (-0.0) == "0");
    CHECK (modal::exactText (-0.0) == "0");
}

TEST_CASE ("Numbers are taken off the front of text, whatever follows", "[number text]")
{
    struct Case
    {
        const char* text;
        double number;
        const char* rest;
    };

    for (const auto& c : { Case{ "14in", 14.0, "in" }, Case{ "-3.5e2 x", -350.0, " x" }, Case{ "1e", 1.0, "e" },
                           Case{ ".5", 0.5, "" }, Case{ "5.", 5.0, "" }, Case{ "+2mm", 2.0, "mm" }, Case{ "0x10", 0.0, "x10" },
                           Case{ "1e-999", 0.0, "" }, Case{ "-1e999", -HUGE_VAL, "" } })
    {
        CAPTURE (c.text);
        std::string_view text = c.text;
        const auto number = modal::takeNumber (text);
        REQUIRE (number.has_value());
        CHECK (*number == c.number);
        CHECK (text == c.rest);
    }

    for (std::string_view none : { "", "in", "-", ".", "nan", "inf", "e5", "+-1" })
    {
        CAPTURE (none);
        CHECK_FALSE (modal::takeNumber (none).has_value());
    }
}

TEST_CASE ("Numbers other than -0 are written as printf would in the C locale", "[number text]")
{
    for (const double value :
         { 0.0, 1.0, -2.5, 0.35560, 1.0 / 3.0, 1234567.0, 1.0e-7, 6.02214076e23, -1.7976931348623157e308 })
    {
        char text[400];
        std::snprintf (text, sizeof text, "%.6g", value);
        CHECK (modal::asText (value) == text);
        std::snprintf (text, sizeof text, "%.3f", value);
        CHECK (modal::fixedText (value, 3) == text);
        std::snprintf (text, sizeof text, "%+.1f", value);
        CHECK (modal::signedText (value, 1) == text);
    }
}
