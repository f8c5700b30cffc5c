#include "StrandGeometry.h"

#include "Modal/Units.h"

#include <cmath>

namespace engine
{

StrandGeometry::StrandGeometry (const modal::WireSpec& wires, double headDiameter, int strands, int points, int modes)
    : spec (wires), length (wires.lengthShare * headDiameter), strandMass (wires.strandMass * wires.strands / strands),
      modeLimit (modes)
{
    const double realWires = static_cast<double> (wires.strands) / strands;
    for (int i = 0; i < points / 2; ++i)
        x.push_back ((i + 0.5) * length / points);
    for (int pair = 0; pair < strands / 2; ++pair)
    {
        y.push_back ((pair + 0.5) * spec.bedWidth / strands);
        // No two pairs alike: multiples of the golden ratio never coincide.
        const double golden = 0.6180339887498949 * (pair + 1);
        const double spread = 2.0 * (golden - std::floor (golden)) - 1.0;
        tension.push_back (spec.strandTension * realWires * (1.0 + spec.unevenness * spread));
    }
}

double StrandGeometry::shape (int n, int point) const
{
    return std::sqrt (2.0 / strandMass) * std::sin (n * modal::units::pi * (pointX (point) / length + 0.5));
}

double StrandGeometry::frequency (int n, int pair) const
{
    const double waveSpeed = std::sqrt (tension[static_cast<std::size_t> (pair)] * length / strandMass);
    return n * waveSpeed / (2.0 * length);
}

double StrandGeometry::decay (int n, int pair) const
{
    const double above = modal::units::pi * (frequency (n, pair) - frequency (1, pair));
    return spec.decayRate + spec.decayPerOscillation * above;
}

double StrandGeometry::weight (int n) const
{
    if (n % 2 == 0)
        return 0.0;
    return -spec.gravity * std::sqrt (2.0 * strandMass) * 2.0 / (n * modal::units::pi);
}

} // namespace engine
