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
        return "The stroke fades into the noise too soon to show any muffling, so the model has none. Record closer to the drum, "
               "or in a quieter room.";

    if (likeness.doubt == Doubt::ringsLonger)
        return "It rings longer than the model, which has no muffling to take off. A live room may be why.";

    if (! gel.isMeasured && likeness.hasWires)
        return "With the wires on, the muffling cannot be heard, so the model has none: the wires damp the drum as much as gel "
               "would. Record a strike with the wires off.";

    if (! gel.isMeasured)
        return "The closest match is the model with " + grams (gel.value) +
               " of gel on the batter head, but anything from none to " + grams (gel.high) + " would fit.";

    if (gel.value < littleGel)
        return "It fades like the model without muffling; " + grams (gel.high) + " of gel at most would fit.";

    return "It fades like the model with " + grams (gel.value) + " of gel on the batter head (" +
           modal::fixedText (1000.0 * gel.low, 1) + " to " + grams (gel.high) + "). Tape, a ring or the stand may do the same.";
}

std::string strainerText (const playlike::Likeness& likeness)
{
    const auto& tension = likeness.strandTension;
    return tension.isMeasured
               ? "Strainer tension: " + newtons (tension.value) + " per strand (" + modal::fixedText (tension.low, 1) + " to " +
                     newtons (tension.high) + ")."
               : "This stroke does not show the strainer tension; it stays at " + newtons (tension.value) + " per strand.";
}

} // namespace

std::vector<std::string> sentences (const playlike::Likeness& likeness)
{
    std::vector<std::string> all{ likeness.hasWires ? "Wires are heard, so the model's are on."
                                                    : "No wires are heard, so the model's are thrown off." };

    if (likeness.hasWires)
        all.push_back (strainerText (likeness));

    all.push_back (mufflingText (likeness));
    all.push_back (
        "One stroke does not show where or how hard the drum was struck, with which stick, or where the muffling sits.");
    return all;
}

} // namespace wording
