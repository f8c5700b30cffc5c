#include "Cautions.h"

#include "Modal/NumberText.h"
#include "Modal/PrudentLimits.h"

namespace reports
{

using namespace modal;

namespace
{
void addCautions (std::vector<std::string>& list, const char* name, const HeadPrediction& head)
{
    if (head.yieldShare > prudentYieldShare)
        list.push_back (std::string ("The ") + name + " head is at " + fixedText (100.0 * head.yieldShare, 0) + " %" +
                        " of its yield strength: it may stretch permanently or split. Keep to the head maker's limits.");

    if (head.yieldShare < slackYieldShare)
        list.push_back (std::string ("The ") + name + " head is nearly slack, at " + fixedText (100.0 * head.yieldShare, 1) +
                        " % of its yield strength: a real head wrinkles there and holds no note.");

    if (head.forcePerLug > prudentRodForce)
        list.push_back (std::string ("The ") + name + " head's force per rod is " + fixedText (head.forcePerLug, 0) +
                        " N: lugs, hoop and shell may not be made for it. Keep to the drum maker's limits.");
}
} // namespace

std::vector<std::string> cautions (const Prediction& p)
{
    std::vector<std::string> list;
    addCautions (list, "batter", p.batter);

    if (p.drum.hasResonantHead())
        addCautions (list, "resonant", p.resonant);

    return list;
}

const std::vector<std::string>& usualCautions()
{
    static const std::vector<std::string> list{
        "The limits of the makers of heads, hoops and drum come before every figure here.",
        "A drum played close by harms hearing: wear ear protection.",
        "An over-tensioned head can split and a rod can break: turn in small steps, keep your face away, never force a rod.",
        "The edges of hoops, heads and wires are sharp.",
    };
    return list;
}

} // namespace reports
