#include "PlanText.h"

#include "Modal/InputError.h"

#include <algorithm>
#include <cmath>

namespace wording
{

std::string keyTurn (double turns)
{
    int numerator = static_cast<int> (std::lround (std::abs (turns) * 64.0)), denominator = 64;

    if (numerator == 0)
        return "leave";

    while (numerator % 2 == 0 && denominator > 1)
    {
        numerator /= 2;
        denominator /= 2;
    }

    return std::to_string (numerator) + (denominator == 1 ? "" : "/" + std::to_string (denominator)) +
           (turns > 0.0 ? " up" : " down");
}

std::string nearTurn (double turns)
{
    if (turns == 0.0)
        return "no turn";

    const double sixteenths = std::round (std::abs (turns) * 16.0);
    const std::string direction = turns > 0.0 ? " up" : " down";

    if (sixteenths == 0.0)
        return "under 1/16 turn" + direction;

    const double whole = std::floor (sixteenths / 16.0), rest = sixteenths / 16.0 - whole;
    const auto fraction = rest > 0.0 ? keyTurn (rest) : std::string();
    return (whole > 0.0 ? modal::asText (whole) + (rest > 0.0 ? " " : "") : std::string()) +
           fraction.substr (0, fraction.find (' ')) + (whole > 0.0 && whole + rest > 1.0 ? " turns" : " turn") + direction;
}

std::string nearFraction (double turns)
{
    auto text = nearTurn (turns);

    for (const std::string unit : { " turns", " turn" })
        if (const auto at = text.find (unit); at != std::string::npos)
            text.erase (at, unit.size());

    return text;
}

std::string keyTurns (const fitting::Pass& pass)
{
    if (pass.isEven())
        return "all rods " + keyTurn (pass.turns.front());

    std::string rods;
    bool hasOthers = false;

    for (const int lug : pass.order)
        if (const double turns = pass.turns[static_cast<std::size_t> (lug)]; turns != 0.0)
            rods += (rods.empty() ? "" : ", ") + std::to_string (lug + 1) + ": " + keyTurn (turns);
        else
            hasOthers = true;

    return rods + (hasOthers ? "; leave the others" : "");
}

std::string tighteningOrder (const std::vector<int>& lugs)
{
    std::string order;

    for (const int lug : lugs)
        order += (order.empty() ? "" : " ") + std::to_string (lug + 1);

    return order;
}

std::string text (const fitting::PlanCaution& caution, modal::HeadSide side)
{
    const std::string name = side == modal::HeadSide::batter ? "batter" : "resonant";

    switch (caution.kind)
    {
    case fitting::PlanCaution::Kind::nearYield:
        return "The " + name + " head reaches " + modal::asText (100.0 * caution.value, 2) +
               " % of its yield strength: it may stretch permanently or split. Stop at its maker's limit, even below the note.";
    case fitting::PlanCaution::Kind::rodForce:
        return "The force per " + name + " rod reaches " + modal::asText (caution.value, 3) +
               " N: lugs, hoop and shell may not be made for it. Keep to the drum maker's limits.";
    case fitting::PlanCaution::Kind::nearlySlack:
        return "The " + name + " head is nearly slack: seat it by hand, evenly, before turning with a key.";
    }

    return {};
}

const std::vector<std::string>& planCautions()
{
    static const std::vector<std::string> cautions{
        "The limits of the makers of head, hoop and drum come before every figure here.",
        "Stop and tap after every pass. If the note is already there, a turn does more on this drum than expected: enter what "
        "you heard and make a new plan.",
        "Never force a rod that binds. Keep your face away from the head while you tighten it, and wear ear protection when you "
        "play close.",
        "Edges of hoops, heads and wires are sharp.",
    };
    return cautions;
}

} // namespace wording
