#include "Command.h"
#include "PlanOptions.h"
#include "Results.h"
#include "TextTable.h"
#include "TunedDrum.h"

#include "Reports/PlanJson.h"
#include "Wording/PlanText.h"

#include "Modal/NumberText.h"

#include <algorithm>
#include <cmath>

namespace tool
{

using namespace fitting;
using namespace modal;

namespace
{
std::string noteOf (double hertz, const Tuning& tuning)
{
    return Note::fromFrequency (hertz, tuning.concertPitch).nameWithCents();
}

/** What to listen for after a pass, and what to do about it. */
std::string expectationOf (const HeadPlan& head, const Pass& pass, const Tuning& tuning)
{
    constexpr double fine = 20.0, vague = 100.0; // cents

    if (pass.tapNoteError > vague)
        return "the tap note is then about " + Note::fromFrequency (pass.tapNote, tuning.concertPitch).name() +
               " on a typical drum, on yours it may be far off: tap, and stop when you hear " + noteOf (head.toNote, tuning);

    const auto expected = "tap note " + noteOf (pass.tapNote, tuning) + "  " + fixedText (pass.tapNote, 1) + " Hz ± " +
                          fixedText (pass.tapNoteError, 0) + " cents";
    return pass.tapNoteError <= fine ? expected + ": fine-tune by ear"
                                     : expected + ": tap, and stop if you hear " + noteOf (head.toNote, tuning) + " sooner";
}

/** The option that tells the next plan what all rods' first turn did. */
std::string observedOption (const HeadPlan& head, const Tuning& tuning)
{
    const double turn = head.passes.front().turns.front();
    const auto turns = wording::keyTurn (turn);
    return "--observed \"" + std::string (head.side == HeadSide::batter ? "batter " : "resonant ") + (turn < 0.0 ? "-" : "") +
           turns.substr (0, turns.find (' ')) + " " + noteOf (head.fromNote, tuning) + " <note you hear>\"";
}

std::string testTurnText (const HeadPlan& head, const Tuning& tuning)
{
    const auto& test = head.passes.front();
    std::string text = "  test turn: " + wording::keyTurns (test) + "\n          tightening order " +
                       wording::tighteningOrder (test.order) + "\n          tap, then run plan again with " +
                       observedOption (head, tuning) + "\n";
    TextTable table ({ Column::left, Column::left });
    table.add ({ "if you hear", "every rod then needs" });

    for (const auto& after : head.afterTest)
        table.add ({ noteOf (after.tapNote, tuning), wording::nearTurn (after.turnsLeft) });

    return text + table.written (10);
}

std::string headText (const HeadPlan& head, const Tuning& tuning)
{
    const std::string name = head.side == HeadSide::batter ? "BATTER" : "RESONANT";
    auto text = name + "  " + noteOf (head.fromNote, tuning) + " to " + noteOf (head.toNote, tuning) + ", " +
                fixedText (head.fromTension, 0) + " to " + fixedText (head.toTension, 0) + " N/m\n";

    if (head.passes.empty())
        return text + "  no rod needs 1/16 turn or more: fine-tune by ear\n";

    if (head.hasTestTurn)
        text +=
            testTurnText (head, tuning) + "  Without a new plan, for a typical drum (yours may need half or twice as much):\n";

    int count = 0;

    for (auto pass = head.passes.begin() + (head.hasTestTurn ? 1 : 0); pass != head.passes.end(); ++pass)
        text += "  pass " + std::to_string (++count) + ": " + wording::keyTurns (*pass) + "\n          tightening order " +
                wording::tighteningOrder (pass->order) + "\n          " + expectationOf (head, *pass, tuning) + "\n";

    if (head.turnsLeft != 0.0)
        text += "  Then run plan again: every rod still needs about " + wording::nearTurn (head.turnsLeft) + ".\n";

    if (head.isCalibrated && head.passes.front().isEven())
        text += "  After pass 1 add what it did: " + observedOption (head, tuning) + "\n";

    text += "  at the target: force per rod " + fixedText (head.forcePerRod, 0) + " N, torque " + fixedText (head.torque.low, 2) +
            " to " + fixedText (head.torque.high, 2) + " N m depending on friction (for information, not a target)\n";

    for (const auto& caution : head.cautions)
        text += "\nCAUTION  " + wording::text (caution, head.side) + "\n";

    return text;
}

void runPlan (const std::vector<std::string>& words, const Command& command)
{
    const auto arguments = command.read (words);
    const auto tuned = chooseOne (arguments);
    const auto plan = makePlan (readPlanRequest (arguments, tuned.drum, tuned.tuning));

    auto text = tuned.label() + "\n\n";

    for (const auto& head : plan.heads)
        text += headText (head, tuned.tuning) + "\n";

    for (const auto& caution : wording::planCautions())
        text += "CAUTION  " + caution + "\n";

    writeJsonAndText (arguments, reports::planJson (plan), text);
}
} // namespace

const Command& planCommand()
{
    static const Command command{
        "plan",
        "Plans the key turns from the present tuning to another: which rod, how far, in which order",
        "[DRUM] [options] --now-batter NOTE [--now-resonant NOTE] | --now-from FILE.json",
        "Read the present notes from a tap 25 mm from the edge, the other head held still, wires off. The plan goes round the "
        "drum in the\n"
        "tightening order, in at most three passes, in sixteenths of a turn, and comes up to pitch from below. The effect of a "
        "turn\n"
        "differs from drum to drum: a test turn of every rod comes first; report its effect with --observed, and the plan goes "
        "on "
        "from there.\n\n"
        "  snarewright plan maple-14x5 --batter-note G#3 --now-batter F3\n"
        "  snarewright plan maple-14x5 --batter-note G#3 --observed \"batter 1/8 F3 F#3\"\n",
        { planOptions(),
          { "Output:",
            { { "json", "FILE",
                "the plan as JSON to a file, besides the text; without a file, or with -, to standard\noutput instead",
                true } } } },
        true,
        runPlan
    };
    return command;
}

} // namespace tool
