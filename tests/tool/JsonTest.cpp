#include "Files/Json.h"

#include "Files/Utf8.h"
#include "Modal/InputError.h"
#include "tests/Catch.h"

#include <string>

using files::Json;

TEST_CASE ("The worked example of RFC 8259 is read as the standard says", "[json]")
{
    // RFC 8259, section 13, first example.
    const auto document = Json::parse (R"({
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

    const auto* image = document.find ("Image");
    REQUIRE (image != nullptr);
    CHECK (*image->find ("Width")->number() == 800.0);
    CHECK (*image->find ("Title")->text() == "View from 15th Floor");
    CHECK (*image->find ("Thumbnail")->find ("Url")->text() == "http://www.example.com/image/481989943");
    CHECK (*image->find ("Animated")->boolean() == false);
    REQUIRE (image->find ("IDs")->array() != nullptr);
    CHECK (image->find ("IDs")->array()->size() == 4);
    CHECK (*image->find ("IDs")->array()->at (3).number() == 38793.0);
}

TEST_CASE ("Escapes mean what RFC 8259 says", "[json]")
{
    // Section 7: the G clef U+1D11E is "\uD834\uDD1E"; its UTF-8 form is F0 9D 84 9E (RFC 3629, section 3, gives the coding).
    CHECK (*Json::parse (R"("\uD834\uDD1E")", "t").text() == "\xf0\x9d\x84\x9e");
    CHECK (*Json::parse (R"("\u005C\"\/\b\f\n\r\t")", "t").text() == "\\\"/\b\f\n\r\t");
    CHECK (*Json::parse (R"("\u00e9")", "t").text() == "é");
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
        CHECK_THROWS_AS (Json::parse (text, "t"), modal::InputError);
    }
}

TEST_CASE ("A fault in a document is named by line and column", "[json]")
{
    try
    {
        Json::parse ("{\n  \"a\": 1,\n  \"b\": ?\n}", "pit.json");
        FAIL ("no error");
    }
    catch (const modal::InputError& e)
    {
        CHECK (e.field() == "pit.json, line 3, column 8");
    }
}

TEST_CASE ("Nesting is bounded", "[json]")
{
    const auto nested = [] (int depth)
    { return std::string (static_cast<std::size_t> (depth), '[') + std::string (static_cast<std::size_t> (depth), ']'); };

    CHECK_NOTHROW (Json::parse (nested (Json::deepest), "t"));
    CHECK_THROWS_AS (Json::parse (nested (Json::deepest + 2), "t"), modal::InputError);
    CHECK_THROWS_AS (Json::parse (std::string (500000, '['), "t"), modal::InputError);
    CHECK_THROWS_AS (Json::parse (std::string (500000, '{'), "t"), modal::InputError);
}

TEST_CASE ("What is written reads back the same", "[json]")
{
    const Json::Object object{ { "text \"quoted\" \\ \n", "é\x01" },
                               { "numbers", Json::Array{ 0.1, -1.0e-300, 1.7976931348623157e308, 3, 2.0 / 3.0 } },
                               { "empty", Json::Object{} },
                               { "none", Json() },
                               { "yes", true } };
    const auto written = Json (object).written();
    const auto again = Json::parse (written, "t");

    CHECK (again.written() == written);
    CHECK (*again.find ("text \"quoted\" \\ \n")->text() == "é\x01");

    for (std::size_t i = 0; i < 5; ++i)
        CHECK (*again.find ("numbers")->array()->at (i).number() == *object[1].second.array()->at (i).number());
}

TEST_CASE ("Columns are counted in characters", "[json]")
{
    // RFC 3629, section 7, second example: three Korean characters.
    CHECK (files::countCharacters ("\xed\x95\x9c\xea\xb5\xad\xec\x96\xb4") == 3);
}
