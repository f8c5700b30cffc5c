#include "Command.h"
#include "PlanOptions.h"
#include "Results.h"
#include "TextTable.h"
#include "TunedDrum.h"

#include "Sheets/PlanJson.h"
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

constexpr double mostUseful = 100.0; // cents: beyond it a note to the cent would mislead

/** The tap note after a pass: to the cent, or between which notes. */
std::string expectationOf (const Pass& pass, const Tuning& tuning)
{
    if (pass.tapNoteError <= mostUseful)
        return noteOf (pass.tapNote, tuning) + "  " + fixedText (pass.tapNote, 1) + " Hz +/- " +
               fixedText (pass.tapNoteError, 0) + " cents";

    const auto nearest = [&] (double cents)
    { return Note::fromFrequency (pass.tapNote * std::exp2 (cents / 1200.0), tuning.concertPitch).name(); };
    return "about " + nearest (0.0) + ", between " + nearest (-pass.tapNoteError) + " and " +
           nearest (pass.tapNoteError);
}

/** Whether the plan is calibrated, and how to calibrate it. */
std::string rodsText (const HeadPlan& head, const Tuning& tuning)
{
    const double factor = std::exp (head.response.logError);
    std::string text = head.isCalibrated
                           ? "  Calibrated: a turn may change the pitch by a factor of " + fixedText (factor, 2) +
                                 " more or less.\n"
                           : "  Not calibrated: a turn may change the pitch by half or twice as much.\n";

    if (const auto& first = head.passes.front(); first.isEven())
    {
        const auto turns = wording::keyTurn (first.turns.front());
        text += "  To calibrate after pass 1: --observed \"" +
                std::string (head.side == HeadSide::batter ? "batter " : "resonant ") + (first.turns.front() < 0.0 ? "-" : "") +
                turns.substr (0, turns.find (' ')) + " " + noteOf (head.fromNote, tuning) + " <note you hear>\"\n";
    }

    return text;
}

std::string headText (const HeadPlan& head, const Tuning& tuning)
{
    const std::string name = head.side == HeadSide::batter ? "BATTER" : "RESONANT";
    auto text = name + "  " + noteOf (head.fromNote, tuning) + " to " + noteOf (head.toNote, tuning) + ", " +
                fixedText (head.fromTension, 0) + " to " + fixedText (head.toTension, 0) + " N/m\n";

    if (head.passes.empty())
        return text + "  no rod needs 1/16 turn or more: fine-tune by ear\n";

    if (std::any_of (head.passes.begin(), head.passes.end(), [] (const Pass& p) { return p.tapNoteError > mostUseful; }))
        text += "  Do one pass, tap again and make a new plan: later passes are too uncertain.\n";

    int count = 0;

    for (const auto& pass : head.passes)
        text += "  pass " + std::to_string (++count) + ": " + wording::keyTurns (pass) + "\n          tightening order " +
                wording::tighteningOrder (pass.order) + "\n          expected tap note " +
                expectationOf (pass, tuning) + "\n";

    text += rodsText (head, tuning);
    text += "  at the target: force per rod " + fixedText (head.forcePerRod, 0) + " N, torque " +
            fixedText (head.torque.low, 2) + " to " + fixedText (head.torque.high, 2) +
            " N m depending on friction (for information, not a target)\n";

    for (const auto& caution : head.cautions)
        text += "\nCAUTION  " + wording::text (caution, head.side) + "\n";

    return text;
}

void run (const std::vector<std::string>& words, const Command& command)
{
    const Arguments arguments (words, command.allOptions());
    const auto tuned = chooseOne (arguments);
    const auto plan = makePlan (readPlanRequest (arguments, tuned.drum, tuned.tuning));

    auto text = tuned.label() + "\n\n";

    for (const auto& head : plan.heads)
        text += headText (head, tuned.tuning) + "\n";

    for (const auto& caution : wording::planCautions())
        text += "CAUTION  " + caution + "\n";

    writeJsonAndText (arguments, sheets::planJson (plan), text);
}
} // namespace

const Command& planCommand()
{
    static const Command command{
        "plan",
        "Plans the key turns from the present tuning to another: which rod, how far, in which order",
        "[DRUM] [options] --now-batter NOTE [--now-resonant NOTE] | --now-from FILE.json",
        "Read the present notes from a tap 25 mm from the edge, the other head held still, wires off. The plan goes round the drum in "
        "the\n"
        "tightening order, in passes of at most --step, in sixteenths of a turn, and comes up to pitch from below. The effect of a "
        "turn\n"
        "differs from drum to drum: calibrate the plan with --observed, what a turn did to your drum.\n\n"
        "  snarewright plan maple-14x5 --now-batter F3 --now-resonant C4 --observed \"batter 1/4 F3 G3\"\n",
        { planOptions(), { "Output:", { { "json", "FILE", "the plan as JSON to a file, besides the text; without a file, or with -, to standard\noutput instead", true } } } },
        true,
        run
    };
    return command;
}

} // namespace tool
