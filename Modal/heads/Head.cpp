#include "Head.h"

#include "Modal/DrumNumbers.h"

namespace modal
{

std::vector<ExtraMass> extraMasses (const HeadConstruction& head, double radius)
{
    std::vector<ExtraMass> extras;

    if (head.dotDiameter > 0.0 && head.dotThickness > 0.0)
        extras.push_back ({ 0.0, 0.5 * head.dotDiameter, head.dotThickness * Film::density });

    if (head.ringWidth > 0.0 && head.ringThickness > 0.0)
        extras.push_back ({ radius - head.ringWidth, radius, head.ringThickness * Film::density });

    return extras;
}

void check (const HeadConstruction& head, double radius, const std::string& where)
{
    checkNumbers (head, where);
    check (plyCount, head, where);
    requireInRange (head.dotDiameter, { 0.0, 2.0 * radius, "m" }, where + " dot diameter");
    requireInRange (head.ringWidth, { 0.0, radius, "m" }, where + " ring width");
}

} // namespace modal
