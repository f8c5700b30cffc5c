#include "StrandGeometry.h"

#include "Modal/Units.h"

#include <algorithm>
#include <cmath>

namespace engine
{

namespace
{
/** -1 to 1, different for every index: multiples of the golden ratio never coincide. */
double spreadOf (int index)
{
    const double golden = 0.6180339887498949 * index;
    return 2.0 * (golden - std::floor (golden)) - 1.0;
}
} // namespace

StrandGeometry::StrandGeometry (const modal::WireSpec& wires, double headDiameter, int strands, int points, int modes)
    : spec (wires), length (wires.lengthShare * headDiameter),
      group (std::max (1.0, static_cast<double> (wires.strands) / strands)),
      strandMass (wires.strandMass * wires.strands / strands), bending (wires.bending * wires.strands / strands),
      modeLimit (modes)
{
    const double realWires = static_cast<double> (wires.strands) / strands;
    for (int i = 0; i < points / 2; ++i)
        x.push_back ((i + 0.5) * length / points);
    for (int pair = 0; pair < strands / 2; ++pair)
    {
        y.push_back ((pair + 0.5) * spec.bedWidth / strands);
        tension.push_back (spec.strandTension * realWires * (1.0 + spec.unevenness * spreadOf (pair + 1)));
    }
}

double StrandGeometry::shape (int n, int point) const
{
    return std::sqrt (2.0 / strandMass) * std::sin (n * modal::units::pi * (pointX (point) / length + 0.5));
}

double StrandGeometry::frequency (int n, int pair) const
{
    // A stretched beam on hinges: μω² = Tk² + Bk⁴, of which a model strand has as many as it stands for.
    const double waveNumber = n * modal::units::pi / length;
    const double stiffness = tension[static_cast<std::size_t> (pair)] + bending * waveNumber * waveNumber;
    return waveNumber * std::sqrt (stiffness * length / strandMass) / modal::units::twoPi;
}

double StrandGeometry::groupShare (double hertz) const
{
    // Even tensions within ±unevenness deviate by 1/√3 of it, and a period by half as much.
    const double halfSwing = 0.5 / frequency (1, 0), spread = halfSwing * 0.5 * spec.unevenness / std::sqrt (3.0);
    const double together = std::exp (-std::pow (modal::units::twoPi * hertz * spread, 2));
    return std::sqrt (together + (1.0 - together) / group);
}

double StrandGeometry::extraPress (int pair, bool isAtNegativeY) const
{
    return spec.unevenPress * spreadOf (pairs() + 2 * pair + (isAtNegativeY ? 2 : 1));
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
