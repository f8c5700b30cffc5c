#include "Stick.h"

#include "Modal/DrumNumbers.h"

namespace modal
{

void check (const StickSpec& stick)
{
    checkNumbers (stick, "stick");
}

} // namespace modal
