#include "Wires.h"

#include "Modal/DrumNumbers.h"

namespace modal
{

void check (const WireSpec& wires)
{
    check (strandCount, wires, "wires");
    checkNumbers (wires, "wires");
    requireInRange (wires.bending, { 0.0, 0.01, "N m²" }, "wires bending");
}

} // namespace modal
