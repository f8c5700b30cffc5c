#include "Files/HeadText.h"

#include "Modal/DrumSpec.h"
#include "Modal/InputError.h"
#include "tests/Catch.h"

TEST_CASE ("A head is read from one line", "[head]")
{
    const auto plain = files::readHeadText ("10mil", "head");
    CHECK (plain.plyThickness == Approx (254e-6));
    CHECK (plain.plies == 1);
    CHECK (plain.coatingDensity == 0.0);

    const auto full = files::readHeadText ("2x7mil coating 25g/m2 dot 100 mm 7.5 mil ring 25mm 10mil", "head");
    CHECK (full.plyThickness == Approx (177.8e-6));
    CHECK (full.plies == 2);
    CHECK (full.coatingDensity == Approx (0.025));
    CHECK (full.dotDiameter == Approx (0.1));
    CHECK (full.dotThickness == Approx (190.5e-6));
    CHECK (full.ringWidth == Approx (0.025));
    CHECK (full.ringThickness == Approx (254e-6));
}

TEST_CASE ("An areal density includes film and coating", "[head]")
{
    CHECK (files::readHeadText ("0.2653kg/m2", "head").baseDensity() == Approx (0.2653));
    CHECK (files::readHeadText ("353g/m2 coated", "head").baseDensity() == Approx (0.353));
    CHECK (files::readHeadText ("353g/m2 coated", "head").coatingDensity == files::usualCoating);
}

TEST_CASE ("A head written as a line reads back the same", "[head]")
{
    for (const auto* line : { "10mil", "2x7mil coated", "10mil coating 25g/m2", "3mil", "7.5mil ring 1in 10mil",
                              "10mil coated dot 100mm 7mil ring 25mm 5mil", "0.25mm", "0.2653kg/m2" })
    {
        CAPTURE (line);
        const auto head = files::readHeadText (line, "head");
        CHECK (files::headText (files::readHeadText (files::headText (head), "head")) == files::headText (head));
        CHECK (files::readHeadText (files::headText (head), "head").baseDensity() == Approx (head.baseDensity()).epsilon (1e-12));
    }
}

TEST_CASE ("A whole number of mil is written in mil, whatever unit it was given in", "[head]")
{
    // 3 mil = 3 x 25.4 um.
    CHECK (files::headText (files::readHeadText ("76.2um", "head")) == "3mil");
    CHECK (files::headText (modal::DrumSpec().resonant) == "3mil");
    CHECK (files::headText (files::readHeadText ("76um", "head")) == "76um");
}

TEST_CASE ("A wrong head line is refused", "[head]")
{
    for (const auto* line : { "", "coated", "10", "10mil fuzzy", "10mil dot", "10mil dot 100mm", "3x7mil", "0.001kg/m2", "5kg/m2",
                              "10mil coating", "1mm", "-10mil", "10mil coating 25mil" })
    {
        CAPTURE (line);
        CHECK_THROWS_AS (files::readHeadText (line, "head"), modal::InputError);
    }
}
