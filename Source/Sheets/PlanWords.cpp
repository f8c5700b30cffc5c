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

    for (auto first = head.passes.begin(); first != head.passes.end();)
    {
        const auto next = std::find_if (first, head.passes.end(), [&] (const Pass& pass) { return ! areAlike (pass, *first); });
        const auto& last = *std::prev (next);
        const auto from = first - head.passes.begin() + 1, to = next - head.passes.begin();
        const bool isOne = from == to;
        auto line = name +
                    (isOne ? " pass " + std::to_string (from)
                           : " passes " + std::to_string (from) + "-" + std::to_string (to)) +
                    ": " + wording::keyTurns (*first);

        if (! isCertain (last))
        {
            lines.push_back (line + (isOne ? "" : " each") + "; tap again after one pass and make a new plan: later passes are too uncertain");
            break;
        }

        lines.push_back (line + (isOne ? "; then " : " each; then ") + note (last.tapNote) + " ± " +
                         fixedText (last.tapNoteError, 0) + " cents");
        first = next;
    }

    return lines;
}

} // namespace sheets
