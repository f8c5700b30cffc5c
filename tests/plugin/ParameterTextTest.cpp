#include "tests/Catch.h"

#include "Plugin/ParameterText.h"

#include "Modal/InputError.h"

#include <random>

using namespace plugin;

TEST_CASE ("Typed text is read as notes, intervals and trade units")
{
    struct Case
    {
        Parameter parameter;
        const char* typed;
        double expected;
    };

    // 12-tone equal temperament numbers notes from A4 = 69 (MIDI 1.0); an inch is 25.4 mm (international inch, 1959).
    const Case cases[] = {
        { Parameter::batterNote, "F#3", 54.0 },
        { Parameter::batterNote, "gb3", 54.0 },
        { Parameter::batterNote, "A3 -50", 56.5 },
        { Parameter::batterNote, "220Hz", 57.0 },
        { Parameter::batterNote, "56", 56.0 },
        { Parameter::interval, "P5", 7.0 },
        { Parameter::interval, "perfect fifth", 7.0 },
        { Parameter::interval, "+7 st", 7.0 },
        { Parameter::interval, "700 c", 7.0 },
        { Parameter::interval, "-m2", -1.0 },
        { Parameter::interval, "7", 7.0 },
        { Parameter::depth, "6.5 in", 6.5 },
        { Parameter::depth, "165.1 mm", 6.5 },
        { Parameter::diameter, "14\"", 14.0 },
        { Parameter::diameter, "35.56cm", 14.0 },
        { Parameter::batterFilm, "0.254 mm", 10.0 },
        { Parameter::batterFilm, "7.5mil", 7.5 },
        { Parameter::temperature, "68 F", 20.0 },
        { Parameter::temperature, "20C", 20.0 },
        { Parameter::shellMaterial, "Brass", 5.0 },
        { Parameter::hoop, "cast", 2.0 },
        { Parameter::gain, "-6 dB", -6.0 },
        { Parameter::gain, "silent", -60.0 },
        { Parameter::abovePan, "left 30 %", -0.3 },
        { Parameter::abovePan, "centre", 0.0 },
        { Parameter::abovePan, "middle", 0.0 },
        { Parameter::wiresOn, "off", 0.0 },
        { Parameter::ventDiameter, "none", 0.0 },
        { Parameter::batterCents, "+12 c", 12.0 },
        { Parameter::wireTension, "2.5 N", 2.5 },
        { Parameter::strokePlace, "88 %", 88.0 },
    };

    for (const auto& c : cases)
    {
        CAPTURE (c.typed);
        CHECK (valueFrom (c.typed, specOf (c.parameter)) == Approx (c.expected).margin (1.0e-4));
    }
}

TEST_CASE ("Concert pitch moves a note that is given as a frequency")
{
    // 442 Hz is A4 where concert pitch is 442.
    CHECK (valueFrom ("221 Hz", specOf (Parameter::batterNote), 442.0) == Approx (57.0).margin (0.01));
}

TEST_CASE ("Values out of range are refused and not clipped")
{
    const std::pair<Parameter, const char*> cases[] = {
        { Parameter::diameter, "140 in" }, { Parameter::diameter, "-14 in" },
        { Parameter::diameter, "14 kg" },  { Parameter::diameter, "" },
        { Parameter::diameter, "nan" },    { Parameter::batterNote, "H3" },
        { Parameter::batterNote, "C9" },   { Parameter::interval, "P9" },
        { Parameter::interval, "+25 st" }, { Parameter::shellMaterial, "tin" },
        { Parameter::wiresOn, "maybe" },   { Parameter::gain, "+90 dB" },
        { Parameter::lugs, "3" },          { Parameter::lugs, "ten" },
        { Parameter::abovePan, "up" },     { Parameter::depth, "1e400 in" },
        { Parameter::wireStrands, "61" },  { Parameter::temperature, "300 C" },
    };

    for (const auto& [parameter, typed] : cases)
    {
        CAPTURE (typed);
        CHECK_THROWS_AS (valueFrom (typed, specOf (parameter)), modal::InputError);
    }
}

TEST_CASE ("Units are shown in their usual form and read in both forms")
{
    const auto initial = [] (Parameter which) { return textOf (specOf (which), specOf (which).initial); };
    CHECK (initial (Parameter::temperature) == "20 °C");
    CHECK (initial (Parameter::batterCoating) == "30 g/m²");
    CHECK (initial (Parameter::patchRub) == "270 N·s/m³");
    CHECK (initial (Parameter::woodModulus) == "15.2 GPa");
    CHECK (valueFrom ("20 C", specOf (Parameter::temperature)) == Approx (20.0));
    CHECK (valueFrom ("60 N s/m3", specOf (Parameter::patchRub)) == Approx (60.0));
    CHECK (valueFrom ("15.2e9 Pa", specOf (Parameter::woodModulus)) == Approx (15.2));
}

TEST_CASE ("Every parameter reads back the text it shows, anywhere in its range")
{
    std::mt19937 random (1);

    for (const auto& spec : parameterTable())
        for (int i = 0; i < 200; ++i)
        {
            const auto value = spec.snapped (std::uniform_real_distribution (spec.low, spec.high) (random));
            const auto text = textOf (spec, value);
            CAPTURE (spec.id, value, text);
            const auto back = valueFrom (text, spec);
            // Five digits are shown; notes and intervals are shown to a cent, pan to a percent.
            const auto shown = spec.measure == Measure::pan || spec.measure == Measure::note || spec.measure == Measure::interval
                                   ? 0.006
                                   : std::max (1.0e-4 * std::abs (value), 1.0e-4);
            CHECK (std::abs (back - value) <= std::max (shown, 0.51 * spec.step));
        }
}

TEST_CASE ("Identifiers are unique, and every initial value is in range")
{
    const auto& table = parameterTable();

    for (std::size_t i = 0; i < table.size(); ++i)
    {
        CAPTURE (table[i].id);
        CHECK (findParameter (table[i].id) == static_cast<Parameter> (i));
        CHECK (table[i].snapped (table[i].initial) == Approx (table[i].initial));
        CHECK (table[i].low < table[i].high);
    }
}
