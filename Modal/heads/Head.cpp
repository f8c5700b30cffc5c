#include "Head.h"

#include "Modal/InputError.h"
#include "Modal/Units.h"

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
    const double toMicrometres = 1.0e6, toMillimetres = 1.0 / units::millimetre;

    requireInRange (head.plyThickness * toMicrometres, { 20.0, 500.0, "um" }, where + " ply thickness");
    requireInRange (head.plies, { 1, 2, "" }, where + " plies");
    requireInRange (head.coatingDensity, { 0.0, 0.2, "kg/m2" }, where + " coating");
    requireInRange (head.dotDiameter * toMillimetres, { 0.0, 2.0 * radius * toMillimetres, "mm" }, where + " dot diameter");
    requireInRange (head.dotThickness * toMicrometres, { 0.0, 500.0, "um" }, where + " dot thickness");
    requireInRange (head.ringWidth * toMillimetres, { 0.0, radius * toMillimetres, "mm" }, where + " ring width");
    requireInRange (head.ringThickness * toMicrometres, { 0.0, 500.0, "um" }, where + " ring thickness");
}

} // namespace modal
