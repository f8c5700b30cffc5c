#include "PlanWords.h"

#include "Modal/NumberText.h"


#include "Wording/PlanText.h"

#include <algorithm>
#include <cmath>

namespace sheets
{

using namespace fitting;
using namespace modal;

namespace
{

constexpr double mostUseful = 100.0; // cents

/** Turns are shown in 1/64. */
bool isSameTurn (double a, double b)
{
    return std::abs (a - b) < 0.005;
}

bool isCertain (const Pass& pass)
{
    return pass.tapNoteError <= mostUseful;
}

bool areAlike (const Pass& a, const Pass& b)
{
    return isCertain (a) == isCertain (b) && a.order == b.order &&
           std::equal (a.turns.begin(), a.turns.end(), b.turns.begin(), b.turns.end(), isSameTurn);
}

} // namespace

std::vector<std::string> planLines (const HeadPlan& head, ConcertPitch pitch)
{
    const std::string name = head.side == HeadSide::batter ? "Batter" : "Resonant";
    const auto note = [&] (double hertz) { return Note::fromFrequency (hertz, pitch).nameWithCents(); };
    const auto noteAndHertz = [&] (double hertz) { return note (hertz) + " (" + fixedText (hertz, 1) + " Hz)"; };

    std::vector<std::string> lines{ name + ": tap note now " + noteAndHertz (head.fromNote) + ", target " +
                                    noteAndHertz (head.toNote) + (head.passes.empty() ? "; no rod to turn" : "") };

    if (head.hasTestTurn)
    {
        std::string rows;

        for (const auto& after : head.afterTest)
            rows += (rows.empty() ? "" : ", ") + note (after.tapNote) + ": " + wording::nearTurn (after.turnsLeft);

        lines.push_back (name + " test turn: " + wording::keyTurns (head.passes.front()) +
                         ". What you then hear, and what every rod still needs: " + rows);
    }

    const auto passes = head.passes.begin() + (head.hasTestTurn ? 1 : 0);

    for (auto first = passes; first != head.passes.end();)
    {
        const auto next = std::find_if (first, head.passes.end(), [&] (const Pass& pass) { return ! areAlike (pass, *first); });
        const auto& last = *std::prev (next);
        const auto from = first - passes + 1, to = next - passes;
        const bool isOne = from == to;
        auto line = name +
                    (isOne ? " pass " + std::to_string (from)
                           : " passes " + std::to_string (from) + "-" + std::to_string (to)) +
                    ": " + wording::keyTurns (*first);

        if (! isCertain (last))
        {
            lines.push_back (line + (isOne ? "" : " each") + "; tap after each pass, stop at " + note (head.toNote));
            first = next;
            continue;
        }

        lines.push_back (line + (isOne ? "; then " : " each; then ") + note (last.tapNote) + " ± " +
                         fixedText (last.tapNoteError, 0) + " cents");
        first = next;
    }

    if (head.turnsLeft != 0.0)
        lines.push_back (name + " then: every rod still needs about " + wording::nearTurn (head.turnsLeft) + "; make a new plan");

    return lines;
}

} // namespace sheets
