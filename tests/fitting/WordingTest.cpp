#include "tests/Catch.h"
#include "tests/Contains.h"

#include "Wording/AnswerText.h"
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

TEST_CASE ("The answer to a lug check is one sentence with the lug, how far it is off, the turn and what to check then")
{
    modal::DrumSpec drum;
    drum.lugs = 8;
    HeadFit fit;
    fit.isPossible = true;
    fit.tension = { 2600.0, 20.0 };
    fit.unevenness = 10.0;
    const auto suspect = [&] (std::vector<std::pair<int, double>> suspects, double cents)
    {
        fit.suspects.clear();

        for (const auto& [lug, probability] : suspects)
            fit.suspects.push_back ({ lug, { cents, 2.0 }, probability });

        while (fit.suspects.size() < 8)
            fit.suspects.push_back ({ 0, { 0.0, 2.0 }, 0.0 });
    };
    const auto answer = [&] { return wording::answer (fit, modal::HeadSide::batter, drum); };
    const auto turned = [&] (double cents)
    { return wording::turnInWords (turnsForLugCents (cents, drum, modal::HeadSide::batter, fit.tension.value)); };

    suspect ({ { 2, 0.9 } }, -24.0);
    CHECK (answer() == "Lug 3 is 24 cents flat: turn it " + turned (24.0) + ", then check lug 7 opposite.");
    suspect ({ { 2, 0.9 } }, 24.0);
    CHECK (answer() == "Lug 3 is 24 cents sharp: turn it " + turned (-24.0) + ", then check lug 7 opposite.");
    suspect ({ { 6, 0.6 }, { 2, 0.4 } }, -24.0);
    CHECK (answer() == "Lug 7 or lug 3 opposite is 24 cents flat, and they sound the same: turn both " + turned (12.0) +
                           ", then tap beside them again.");
    suspect ({ { 6, 0.5 }, { 2, 0.3 }, { 1, 0.2 } }, -24.0);
    CHECK (contains (answer(), "One of lugs 2, 3 or 7 is off"));
    fit.unevenness = 1.0;
    CHECK (answer() == "The batter is even: nothing to turn.");
    fit.isPossible = false;
    fit.findings = { { Finding::Kind::slowDecay, Finding::Severity::refusal, { 0.4 } } };
    CHECK (answer() == wording::mostSevereText (fit.findings));
}

TEST_CASE ("A probability is never said to be 0 or 100 %")
{
    CHECK (wording::percentText (0.734) == "73 %");
    CHECK (wording::percentText (0.002) == "under 1 %");
    CHECK (wording::percentText (0.998) == "over 99 %");
}

TEST_CASE ("Turns are said as a tech says them")
{
    CHECK (wording::turnInWords (0.125) == "up an eighth of a turn");
    CHECK (wording::turnInWords (-0.25) == "down a quarter turn");
    CHECK (wording::turnInWords (0.07) == "up a sixteenth of a turn");
    CHECK (wording::turnInWords (-0.01) == "down less than a sixteenth of a turn");
    CHECK (wording::turnInWords (0.3125) == "up 5/16 turn");
    CHECK (wording::turnInWords (1.25) == "up 1 1/4 turns");
}

TEST_CASE ("The answer to strikes names both notes and the interval, or what is as likely")
{
    const auto head = [] (double midi) {
        return DrumAnswer::Head{ { 2000.0, 20.0 }, { 440.0 * std::exp2 ((midi - 69.0) / 12.0), 0.5 } };
    };
    DrumFit fit;
    fit.isPossible = true;
    fit.answers = { { 0.33, head (56.0), head (61.0), 0.8 }, { 0.33, head (58.0), head (57.0), 0.2 } };
    CHECK (wording::answer (fit, {}) == "The batter is at G#3 and the resonant head at C#4: a perfect fourth.");
    fit.answers[0].probability = 0.55;
    fit.answers[1].probability = 0.45;
    CHECK (wording::answer (fit, {}) ==
           "Either batter G#3 and resonant head C#4 or, about as likely, batter A#3 and resonant head A3.");
    fit.answers = { { 0.33, head (56.0), {}, 1.0 } };
    CHECK (wording::answer (fit, {}) == "The batter is at G#3; the strikes do not show the other head.");
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
