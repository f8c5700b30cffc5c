#include "Wires.h"

#include "Modal/DrumNumbers.h"

namespace modal
{

void check (const WireSpec& wires)
{
    check (strandCount, wires, "wires");
    checkNumbers (wires, "wires");
}

} // namespace modal
