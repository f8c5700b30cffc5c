#include "Wires.h"

#include "Modal/InputError.h"

namespace modal
{

void check (const WireSpec& wires)
{
    requireInRange (wires.strands, { 2, 60, "" }, "wires strands");
    requireInRange (wires.strandMass, { 0.1e-3, 5.0e-3, "kg" }, "wires strand mass");
    requireInRange (wires.lengthShare, { 0.5, 0.96, "" }, "wires length share");
    requireInRange (wires.bedWidth, { 5.0e-3, 0.12, "m" }, "wires bed width");
    requireInRange (wires.strandTension, { 0.05, 30.0, "N" }, "wires strand tension");
    requireInRange (wires.pressDepth, { -2.0e-3, 2.0e-3, "m" }, "wires press depth");
    requireInRange (wires.bedDepth, { 0.0, 5.0e-3, "m" }, "snare bed depth");
    requireInRange (wires.bedSpan, { 0.02, 0.2, "m" }, "snare bed span");
    requireInRange (wires.unevenness, { 0.0, 0.5, "" }, "wires unevenness");
    requireInRange (wires.contactLoss, { 0.0, 10.0, "s/m" }, "wires contact loss");
    requireInRange (wires.contactSize, { 0.1e-3, 5.0e-3, "m" }, "wires contact size");
    requireInRange (wires.decayRate, { 0.0, 500.0, "1/s" }, "wires decay rate");
    requireInRange (wires.decayPerOscillation, { 0.0, 0.5, "" }, "wires decay per oscillation");
    requireInRange (wires.gravity, { 0.0, 20.0, "m/s²" }, "wires gravity");
}

} // namespace modal
