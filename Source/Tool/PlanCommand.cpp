#include "BenchOptions.h"
#include "Command.h"
#include "DrumOptions.h"
#include "Results.h"
#include "TextTable.h"

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

constexpr double tooVague = 100.0; // cents: to the cent such a note says nothing

/** What to hear after a pass: to the cent, or between which notes. */
std::string expectationOf (const Pass& pass, const Tuning& tuning)
{
    if (pass.tapNoteError <= tooVague)
        return noteOf (pass.tapNote, tuning) + "  " + fixedText (pass.tapNote, 1) + " Hz +/- " +
               fixedText (pass.tapNoteError, 0) + " cents";

    const auto nearest = [&] (double cents)
    { return Note::fromFrequency (pass.tapNote * std::exp2 (cents / 1200.0), tuning.concertPitch).name(); };
    return "about " + nearest (0.0) + ", between " + nearest (-pass.tapNoteError) + " and " +
           nearest (pass.tapNoteError);
}

/** How well the rods are known, and how to tell more of them. */
std::string rodsText (const HeadPlan& head, const Tuning& tuning)
{
    const double factor = std::exp (head.response.logError);
    std::string text = head.isCalibrated
                           ? "  Calibrated: a turn changes the pitch as planned within a factor of " +
                                 fixedText (factor, 2) + ".\n"
                           : "  Not calibrated: a turn may change the pitch by half or twice as much.\n";

    if (const auto& first = head.passes.front(); first.isEven())
    {
        const auto turns = wording::keyTurn (first.turns.front());
        text += "  After pass 1 calibrate with --observed \"" +
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
        return text + "  nothing to turn by a sixteenth or more: tune the rest by ear\n";

    if (std::any_of (head.passes.begin(), head.passes.end(), [] (const Pass& p) { return p.tapNoteError > tooVague; }))
        text += "  Do one pass, tap again, then make a new plan: later passes are too uncertain.\n";

    int count = 0;

    for (const auto& pass : head.passes)
        text += "  pass " + std::to_string (++count) + ": " + wording::keyTurns (pass) + ", in the order " + wording::tighteningOrder (pass.order) +
                "\n           then it should tap " +
                expectationOf (pass, tuning) + "\n";

    text += rodsText (head, tuning);
    text += "  force per rod at the target " + fixedText (head.forcePerRod, 0) + " N; torque " +
            fixedText (head.torque.low, 2) + " to " + fixedText (head.torque.high, 2) +
            " N m depending on friction (information, not a target)\n";

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

    writeJsonOrText (arguments, sheets::planJson (plan), text);
}
} // namespace

const Command& planCommand()
{
    static const Command command{
        "plan",
        "From the drum as it is to the tuning wanted: which rod, how far, in which order",
        "[DRUM] [options] --now-batter NOTE [--now-resonant NOTE] | --now-from FILE.json",
        "Tap each head 25 mm from the edge with the other held still, wires off, for the notes now. The plan works in a cross, "
        "in "
        "passes no\n"
        "larger than --step, in sixteenths of a turn, and comes up to pitch from below. How far a turn takes a drum differs from "
        "drum\n"
        "to drum: tell it with --observed what a turn did to yours, and the plan follows that instead of a usual drum.\n\n"
        "  snarewright plan maple-14x5 --now-batter F3 --now-resonant C4 --observed \"batter 1/4 F3 G3\"\n",
        { planOptions(), { "Output:", { { "json", "FILE", "as JSON", true } } } },
        true,
        run
    };
    return command;
}

} // namespace tool
