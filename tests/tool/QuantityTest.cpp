#include "Files/Quantity.h"

#include "Modal/InputError.h"
#include "tests/Catch.h"

using files::Quantity;

TEST_CASE ("Units convert as the standards define them", "[quantity]")
{
    struct Case
    {
        const char* text;
        const Quantity* quantity;
        double si;
    };

    // NIST SP 811, appendix B: inch 2.54e-2 m and mil 2.54e-5 m exactly; T/K = t/°C + 273.15 and (t/°F + 459.67)/1.8, exactly.
    const Case cases[] = {
        { "14in", &Quantity::length, 0.3556 },         { "14\"", &Quantity::length, 0.3556 },
        { "14 inches", &Quantity::length, 0.3556 },    { "355.6 mm", &Quantity::length, 0.3556 },
        { "35.56cm", &Quantity::length, 0.3556 },      { "0.3556m", &Quantity::length, 0.3556 },
        { "10mil", &Quantity::thickness, 254.0e-6 },   { "254um", &Quantity::thickness, 254.0e-6 },
        { "254 µm", &Quantity::thickness, 254.0e-6 },  { "0.01in", &Quantity::thickness, 254.0e-6 },
        { "20C", &Quantity::temperature, 293.15 },     { "68°F", &Quantity::temperature, 293.15 },
        { "-40F", &Quantity::temperature, 233.15 },    { "300K", &Quantity::temperature, 300.0 },
        { "1013.25hPa", &Quantity::pressure, 101325 }, { "40%", &Quantity::share, 0.4 },
        { "4500", &Quantity::tension, 4500.0 },        { "4500 N/m", &Quantity::tension, 4500.0 },
        { "30g/m2", &Quantity::arealDensity, 0.03 },   { "180deg", &Quantity::angle, 3.14159265358979324 },
        { "0.2kHz", &Quantity::frequency, 200.0 },
    };

    for (const auto& c : cases)
    {
        CAPTURE (c.text);
        CHECK (files::readQuantity (c.text, *c.quantity, { -1.0e9, 1.0e9 }, "field") == Approx (c.si).epsilon (1e-14));
    }
}

TEST_CASE ("A message gives the limits in the unit that was used", "[quantity]")
{
    try
    {
        files::readQuantity ("140in", Quantity::length, { 0.1, 1.5 }, "--diameter");
        FAIL ("no error");
    }
    catch (const modal::InputError& e)
    {
        CHECK (e.field() == "--diameter");
        CHECK (e.value() == "140 in");
        CHECK (e.allowed() == "3.937 to 59.06 in");
    }
}

TEST_CASE ("A value at its limit is allowed in every unit", "[quantity]")
{
    CHECK (files::readQuantity ("1500mm", Quantity::length, { 0.1, 1.5 }, "f") == 1.5);
    CHECK (files::readQuantity ("10cm", Quantity::length, { 0.1, 1.5 }, "f") == 0.1);
    CHECK (files::readQuantity ("-40F", Quantity::temperature, { 233.15, 333.15 }, "f") == Approx (233.15).epsilon (1e-14));
    CHECK_THROWS_AS (files::readQuantity ("1500.001mm", Quantity::length, { 0.1, 1.5 }, "f"), modal::InputError);
}

TEST_CASE ("Values are written in a unit that gives them exactly", "[quantity]")
{
    CHECK (std::string (files::spell (14 * 0.0254, Quantity::length).unit->symbol) == "in");
    CHECK (files::spell (14 * 0.0254, Quantity::length).value == 14.0);
    CHECK (std::string (files::spell (355.6e-3, Quantity::length).unit->symbol) == "mm");
    CHECK (files::spell (1.0 / 3.0, Quantity::length).value == 1.0 / 3.0);
    CHECK (std::string (files::spell (440.0, Quantity::frequency).unit->key) == "hz");
}
