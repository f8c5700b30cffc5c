#include "Stick.h"

#include "Modal/InputError.h"

namespace modal
{

void check (const StickSpec& stick)
{
    requireInRange (stick.mass, { 1.0e-3, 0.2, "kg" }, "stick mass");
    requireInRange (stick.stiffness, { 1.0e3, 1.0e9, "N/m^exponent" }, "stick stiffness");
    requireInRange (stick.exponent, { 1.0, 4.0, "" }, "stick exponent");
    requireInRange (stick.loss, { 0.0, 10.0, "s/m" }, "stick loss");
    requireInRange (stick.shaftMass, { 1.0e-3, 0.3, "kg" }, "stick shaft mass");
    requireInRange (stick.shaftStiffness, { 1.0e4, 1.0e10, "N/m^1.5" }, "stick shaft stiffness");
}

} // namespace modal
