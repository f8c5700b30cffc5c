#include "LikenessText.h"

#include "Modal/NumberText.h"

namespace wording
{
namespace
{

constexpr double littleGel = 0.5e-3; // kg: no more than a piece of tape

std::string grams (double mass)
{
    return modal::fixedText (1000.0 * mass, 1) + " g";
}

std::string newtons (double tension)
{
    return modal::fixedText (tension, 1) + " N";
}

std::string mufflingText (const playlike::Likeness& likeness)
{
    using playlike::Doubt;
    const auto& gel = likeness.gel;

    if (likeness.doubt == Doubt::noisy)
        return "Muffling is not told, and the model has none: the stroke fades into the noise too soon. Record closer to the "
               "drum, or in a "
               "quieter room.";

    if (likeness.doubt == Doubt::ringsLonger)
        return "It rings longer than the model, which has no muffling that could be taken away. A room that rings may be the "
               "reason.";

    if (! gel.isTold && likeness.hasWires)
        return "Muffling is not told, and the model has none: wires take as much as gel would. Record a strike with the wires thrown off.";

    if (! gel.isTold)
        return "It fades most as the model does with " + grams (gel.value) + " of gel on the batter head, but from none to " +
               grams (gel.high) + " would fit.";

    if (gel.value < littleGel)
        return "It fades as the model does without muffling, at most as with " + grams (gel.high) + " of gel.";

    return "It fades as the model does with " + grams (gel.value) + " of gel on the batter head (" +
           modal::fixedText (1000.0 * gel.low, 1) + " to " + grams (gel.high) + "). Tape, a ring or the stand may take as much.";
}

std::string strainerText (const playlike::Likeness& likeness)
{
    const auto& tension = likeness.strandTension;
    return tension.isTold
               ? "Strainer tension: " + newtons (tension.value) + " per strand (" + modal::fixedText (tension.low, 1) + " to " +
                     newtons (tension.high) + ")."
               : "Strainer tension is not told by this stroke; it stays at " + newtons (tension.value) + " per strand.";
}

} // namespace

std::vector<std::string> sentences (const playlike::Likeness& likeness)
{
    std::vector<std::string> all{ likeness.hasWires ? "Wires are heard, so the model's are on."
                                                    : "No wires are heard, so the model's are thrown off." };

    if (likeness.hasWires)
        all.push_back (strainerText (likeness));

    all.push_back (mufflingText (likeness));
    all.push_back ("One stroke does not tell where and how fast the drum was struck, the stick, or where the muffling lies.");
    return all;
}

} // namespace wording
