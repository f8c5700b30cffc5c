#include "Files/Json.h"

#include "Files/Utf8.h"
#include "Modal/InputError.h"
#include "tests/Catch.h"

#include <cmath>
#include <string>

using files::Json;

TEST_CASE ("The worked example of RFC 8259 is read as the standard says", "[json]")
{
    // RFC 8259, section 13, first example.
    const auto document = files::parseJson (R"({
        "Image": {
            "Width":  800,
            "Height": 600,
            "Title":  "View from 15th Floor",
            "Thumbnail": {
                "Url":    "http://www.example.com/image/481989943",
                "Height": 125,
                "Width":  100
            },
            "Animated" : false,
            "IDs": [116, 943, 234, 38793]
          }
      })",
                                            "example");

    const auto& image = document.at ("Image");
    CHECK (image.at ("Width") == 800);
    CHECK (image.at ("Title") == "View from 15th Floor");
    CHECK (image.at ("Thumbnail").at ("Url") == "http://www.example.com/image/481989943");
    CHECK (image.at ("Animated") == false);
    CHECK (image.at ("IDs") == Json::array ({ 116, 943, 234, 38793 }));
}

TEST_CASE ("Escapes mean what RFC 8259 says", "[json]")
{
    // Section 7: the G clef U+1D11E is "\uD834\uDD1E"; its UTF-8 form is F0 9D 84 9E (RFC 3629, section 3, gives the coding).
    CHECK (files::parseJson (R"("\uD834\uDD1E")", "t") == "\xf0\x9d\x84\x9e");
    CHECK (files::parseJson (R"("\u005C\"\/\b\f\n\r\t")", "t") == "\\\"/\b\f\n\r\t");
    CHECK (files::parseJson (R"("\u00e9")", "t") == "é");
}

TEST_CASE ("Documents that RFC 8259 does not allow are refused", "[json]")
{
    const std::string refused[] = {
        "",
        "{",
        "[",
        "[1,]",
        "{\"a\":1,}",
        "{a:1}",
        "{'a':1}",
        "[01]",
        "[+1]",
        "[.5]",
        "[1.]",
        "[1.e3]",
        "[1e]",
        "[--1]",
        "[NaN]",
        "[Infinity]",
        "[0x10]",
        "[1 2]",
        "{\"a\" 1}",
        "{\"a\":1 \"b\":2}",
        "[\"a\nb\"]",
        "[\"\\x\"]",
        "[\"\\u12g4\"]",
        "[\"\\uD834\"]",
        "[tru]",
        "[\"abc",
        "{} {}",
        "[1] x",
        "\"\xc3\"",
        "\"\xed\xa0\x80\"",
        "\"\xc0\x80\"",
        "[1e999]",
        "{\"a\":1,\"a\":2}",
    };

    for (const auto& text : refused)
    {
        CAPTURE (text);
        CHECK_THROWS_AS (files::parseJson (text, "t"), modal::InputError);
    }
}

TEST_CASE ("An error gives its line and column", "[json]")
{
    try
    {
        files::parseJson ("{\n  \"a\": 1,\n  \"b\": ?\n}", "pit.json");
        FAIL ("no error");
    }
    catch (const modal::InputError& e)
    {
        CHECK (e.field() == "pit.json, line 3, column 8");
    }
}

TEST_CASE ("Nesting is limited", "[json]")
{
    const auto nested = [] (int depth)
    { return std::string (static_cast<std::size_t> (depth), '[') + std::string (static_cast<std::size_t> (depth), ']'); };

    CHECK_NOTHROW (files::parseJson (nested (files::deepestJson), "t"));
    CHECK_THROWS_AS (files::parseJson (nested (files::deepestJson + 2), "t"), modal::InputError);
    CHECK_THROWS_AS (files::parseJson (std::string (500000, '['), "t"), modal::InputError);
    CHECK_THROWS_AS (files::parseJson (std::string (500000, '{'), "t"), modal::InputError);
}

TEST_CASE ("A written document reads back the same", "[json]")
{
    const Json object{ { "text \"quoted\" \\ \n", "é\x01" },
                       { "numbers", { 0.1, -1.0e-300, 1.7976931348623157e308, 3, 2.0 / 3.0 } },
                       { "empty", Json::object() },
                       { "none", nullptr },
                       { "yes", true } };
    const auto text = files::written (object);
    const auto again = files::parseJson (text, "t");

    CHECK (again == object);
    CHECK (files::written (again) == text);
}

TEST_CASE ("Whole numbers are written without a point, and numbers that are not finite as null", "[json]")
{
    CHECK (files::written (Json{ { "inches", 14.0 }, { "depth", 5.5 }, { "none", std::nan ("") } }) ==
           "{\n  \"inches\": 14,\n  \"depth\": 5.5,\n  \"none\": null\n}\n");
}

TEST_CASE ("Columns are counted in characters", "[json]")
{
    // RFC 3629, section 7, second example: three Korean characters.
    CHECK (files::countCharacters ("\xed\x95\x9c\xea\xb5\xad\xec\x96\xb4") == 3);
}
