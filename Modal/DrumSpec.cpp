#include "DrumSpec.h"

#include "DrumNumbers.h"
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
    checkNumbers (drum, "");
    check (lugCount, drum, "");
    checkNumbers (drum.vent, "vent");
    checkNumbers (drum.shell, "shell");
    checkNumbers (drum.air, "air");
    findMaterial (drum.shell.material);
    check (drum.muffling, drum.radius());
    check (drum.batter, drum.radius(), "batter");

    if (drum.hasResonantHead())
        check (drum.resonant, drum.radius(), "resonant");
}

} // namespace modal
