#include "DrumSpec.h"

#include "InputError.h"
#include "Units.h"

namespace modal
{

double Vent::area() const noexcept
{
    return 0.25 * units::pi * diameter * diameter;
}

double Vent::effectiveLength() const noexcept
{
    return length + 8.0 / (3.0 * units::pi) * diameter;
}

void check (const DrumSpec& drum)
{
    const double toMillimetres = 1.0 / units::millimetre;

    requireInRange (drum.diameter * toMillimetres, { 100.0, 1500.0, "mm" }, "diameter");
    requireInRange (drum.depth * toMillimetres, { 20.0, 2000.0, "mm" }, "depth");
    requireInRange (drum.lugs, { 4, 16, "" }, "lugs");
    requireInRange (drum.vent.diameter * toMillimetres, { 0.0, 50.0, "mm" }, "vent diameter");
    requireInRange (drum.vent.length * toMillimetres, { 0.5, 50.0, "mm" }, "vent length");
    requireInRange (drum.shell.thickness * toMillimetres, { 0.5, 30.0, "mm" }, "shell thickness");
    requireInRange (drum.air.density, { 0.0, 10.0, "kg/m3" }, "air density");
    requireInRange (drum.air.soundSpeed, { 1.0, 1.0e9, "m/s" }, "air sound speed");
    findMaterial (drum.shell.material);
    check (drum.muffling, drum.radius());
    check (drum.batter, drum.radius(), "batter");

    if (drum.hasResonantHead())
        check (drum.resonant, drum.radius(), "resonant");
}

} // namespace modal
