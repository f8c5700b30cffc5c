#include "BenchOptions.h"
#include "Command.h"
#include "DrumOptions.h"
#include "Results.h"
#include "TextTable.h"

#include "Sheets/PlanJson.h"

#include <algorithm>
#include <cmath>

namespace tool
{

using namespace modal;

namespace
{
std::string noteOf (double hertz, const Tuning& tuning)
{
    return Note::fromFrequency (hertz, tuning.concertPitch).nameWithCents();
}

/** Turns as a key feels them: to the nearest 64th, "1/4 up", "3/32 down". */
std::string turnText (double turns)
{
    int numerator = static_cast<int> (std::lround (std::abs (turns) * 64.0)), denominator = 64;

    if (numerator == 0)
        return "leave";

    while (numerator % 2 == 0 && denominator > 1)
    {
        numerator /= 2;
        denominator /= 2;
    }

    return (denominator == 1 ? std::to_string (numerator) : std::to_string (numerator) + "/" + std::to_string (denominator)) +
           (turns > 0.0 ? " up" : " down");
}

std::string passText (const Pass& pass)
{
    const auto first = turnText (pass.turns.front());

    std::string order;

    for (const int lug : pass.order)
        order += (order.empty() ? "" : " ") + std::to_string (lug + 1);

    if (std::all_of (pass.turns.begin(), pass.turns.end(), [&] (double t) { return turnText (t) == first; }))
        return "every rod " + first + ", in the order " + order;

    std::string text;

    for (const int lug : pass.order)
        text +=
            (text.empty() ? "" : ", ") + std::to_string (lug + 1) + ": " + turnText (pass.turns[static_cast<std::size_t> (lug)]);

    return text;
}

std::string headText (const HeadPlan& head, const Tuning& tuning)
{
    const std::string name = head.side == HeadSide::batter ? "BATTER" : "RESONANT";
    auto text = name + "  " + noteOf (head.fromNote, tuning) + " to " + noteOf (head.toNote, tuning) + ", " +
                fixed (head.fromTension, 0) + " to " + fixed (head.toTension, 0) + " N/m\n";

    if (head.passes.empty())
        return text + "  nothing to turn\n";

    int count = 0;

    for (const auto& pass : head.passes)
        text += "  pass " + std::to_string (++count) + ": " + passText (pass) + "\n           then it should tap " +
                noteOf (pass.tapNote, tuning) + "  " + fixed (pass.tapNote, 1) + " Hz, give or take " +
                fixed (pass.tapNoteError, 0) + " cents\n";

    text += std::string ("  rods: ") + (head.isCalibrated ? "by your own observations" : "by a usual drum, no calibration yet") +
            ", the film takes " + fixed (100.0 * head.response.filmShare, 0) + " % of a turn, within a factor of " +
            fixed (std::exp (head.response.logError), 2) + "\n";
    text += "  at the target each rod pulls with " + fixed (head.forcePerRod, 0) + " N; turning it takes " +
            fixed (head.torque.low, 2) + " to " + fixed (head.torque.high, 2) +
            " N m depending on friction (information, not a target)\n";

    for (const auto& caution : head.cautions)
        text += "\nCAUTION  " + caution + "\n";

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

    for (const auto& caution : plan.cautions)
        text += "CAUTION  " + caution + "\n";

    writeJsonOrText (arguments, sheets::planJson (plan), text);
}
} // namespace

const Command& planCommand()
{
    static const Command command{
        "plan",
        "From the drum as it is to the tuning wanted: which rod, how far, in which order",
        "[DRUM] [options] --now-batter NOTE --now-resonant NOTE | --now-from FILE.json",
        "Tap each head 25 mm from the edge with the other held still, wires off, for the notes now. The plan works in a cross, "
        "in "
        "passes no\n"
        "larger than --step, and comes up to pitch from below. How far a turn takes a drum differs from drum to drum: tell it "
        "with\n"
        "--observed what a turn did to yours, and the plan follows that instead of a usual drum.\n\n"
        "  snarewright plan maple-14x5 --now-batter F3 --now-resonant C4 --observed \"batter 1/4 F3 G3\"\n",
        { planOptions(), { "Output:", { { "json", "FILE", "as JSON", true } } } },
        true,
        run
    };
    return command;
}

} // namespace tool
