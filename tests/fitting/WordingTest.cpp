#include "tests/Catch.h"
#include "tests/Contains.h"

#include "Wording/FitText.h"
#include "Wording/PlanText.h"
#include "Wording/TapText.h"

using namespace fitting;

TEST_CASE ("Every finding has a name that reads back and a sentence with its numbers")
{
    for (int i = 0; i <= static_cast<int> (Finding::Kind::unknownEvenness); ++i)
    {
        const auto kind = static_cast<Finding::Kind> (i);
        CAPTURE (nameOf (kind));
        CHECK (findingNamed (nameOf (kind)) == kind);

        const Finding finding{ kind, Finding::Severity::note, std::vector<double> (numberCount (kind), 0.2) };
        const auto sentence = wording::text (finding);
        CHECK (sentence.size() > 20);
        CHECK (sentence.back() == '.');
    }

    CHECK_FALSE (findingNamed ("no such finding"));
    CHECK (contains (wording::text ({ Finding::Kind::otherDiameter, Finding::Severity::refusal, { 0.3556, 0.3302 } }),
                     "14 in explains the notes better than one of 13 in"));
    CHECK (contains (wording::text ({ Finding::Kind::otherMass, Finding::Severity::warning, { 1.08 } }), "8 % heavier"));
}

TEST_CASE ("The most severe finding comes first")
{
    CHECK (mostSevere ({}) == nullptr);
    CHECK (wording::mostSevereText ({}).empty());
    const std::vector<Finding> findings{ { Finding::Kind::oneKindOfMode },
                                         { Finding::Kind::slowDecay, Finding::Severity::warning, { 0.4 } } };
    CHECK (mostSevere (findings)->kind == Finding::Kind::slowDecay);
}

TEST_CASE ("Lugs to turn: one, two opposite by half, or none that can be named")
{
    HeadFit fit;
    CHECK (fit.verdict().kind == LugVerdict::Kind::unknown);
    const auto suspect = [&] (std::vector<std::pair<int, double>> suspects)
    {
        fit.suspects.clear();

        for (const auto& [lug, probability] : suspects)
            fit.suspects.push_back ({ lug, { -20.0, 2.0 }, probability });

        while (fit.suspects.size() < 8)
            fit.suspects.push_back ({ 0, { 0.0, 2.0 }, 0.0 });
    };
    suspect ({ { 2, 0.9 } });
    fit.unevenness = 1.0;
    CHECK (contains (wording::action (fit.verdict()), "Nothing to turn"));
    fit.unevenness = 10.0;
    CHECK (wording::action (fit.verdict()) == "Raise lug 3 by 20 cents");
    CHECK (wording::reason (fit.verdict()).empty());
    suspect ({ { 6, 0.6 }, { 2, 0.4 } });
    CHECK (wording::action (fit.verdict()) == "Raise lugs 3 and 7 by 10 cents each");
    suspect ({ { 6, 0.5 }, { 2, 0.3 }, { 1, 0.2 } });
    CHECK (fit.verdict().kind == LugVerdict::Kind::severalLugs);
    CHECK (contains (wording::reason (fit.verdict()), "lugs 2, 3 or 7"));
}

TEST_CASE ("Key turns are fractions of a turn with their direction")
{
    CHECK (wording::keyTurn (3.0 / 16.0) == "3/16 up");
    CHECK (wording::keyTurn (-0.5) == "1/2 down");
    CHECK (wording::keyTurn (1.0) == "1 up");
    CHECK (wording::keyTurn (0.0) == "leave");
    CHECK (wording::nearTurn (0.19) == "3/16 turn up");
    CHECK (wording::nearTurn (-1.38) == "1 3/8 turns down");
    CHECK (wording::nearTurn (1.0) == "1 turn up");
    CHECK (wording::nearTurn (0.02) == "under 1/16 turn up");
    const std::vector<int> order{ 0, 2, 1, 3 };
    CHECK (wording::keyTurns ({ .order = order, .turns = { 0.25, 0.25, 0.25, 0.25 } }) == "all rods 1/4 up");
    CHECK (wording::keyTurns ({ .order = order, .turns = { 0.0, -0.125, 0.25, 0.0 } }) ==
           "3: 1/4 up, 2: 1/8 down; leave the others");
    CHECK (wording::tighteningOrder (order) == "1 3 2 4");
}

TEST_CASE ("Every trouble of a tap says what to do, and a tap left out is named")
{
    using listening::Trouble;

    for (const auto trouble :
         { Trouble::noisy, Trouble::doubleHit, Trouble::wiresOn, Trouble::clipped, Trouble::notQuiet, Trouble::cutShort })
        CHECK (contains (wording::text (trouble), ":"));

    CHECK (wording::remarks ({ Trouble::doubleHit }, "Tap 2", false) ==
           "Tap 2: hit twice: lift the stick at once.\nTap 2 is left out.\n");
}
