#include "RingModes.h"

#include <cmath>

namespace modal
{

namespace
{
constexpr double shearPoissonsRatio = 0.3;
}

const Material& ringMaterial (const std::string& name)
{
    // Die-casting zinc alloy: 6600 kg/m³, 85 GPa, handbook values from memory.
    static const Material zinc{ "zinc", 6600.0, 85.0e9, 0.002 };
    return name == zinc.name ? zinc : findMaterial (name);
}

double ringFrequency (int n, const RingSection& section, double radius)
{
    const auto& material = ringMaterial (section.material);
    const double order = n;
    const double bending = std::sqrt (material.youngsModulus * section.secondMoment / (material.density * section.area)) /
                           (units::twoPi * radius * radius);
    return order * (order * order - 1.0) / std::sqrt (order * order + 1.0) * bending;
}

double uprightRingFrequency (int n, const RingSection& section, double radius)
{
    if (n < 2)
        return 0.0;
    const auto& material = ringMaterial (section.material);
    const double bending = material.youngsModulus * section.uprightMoment;
    const double twisting = material.youngsModulus / (2.0 * (1.0 + shearPoissonsRatio)) * section.torsion;
    const double square = static_cast<double> (n) * n;
    const double omega = n * (square - 1.0) *
                         std::sqrt (bending / (material.density * section.area * std::pow (radius, 4)) /
                                    (square + bending / twisting));
    return omega / units::twoPi;
}

double ringModalMass (int n, const RingSection& section, double radius)
{
    const double order = n;
    return units::pi * radius * ringMaterial (section.material).density * section.area * (1.0 + 1.0 / (order * order));
}

namespace
{

/** A web with three flanges that stand out by the same width: the rolled section of a counter hoop. Bending in the ring's plane
   turns about the section's own axis along the drum. */
RingSection flanged (double sheet, double flange)
{
    const double web = hoopHeight;
    const double webArea = web * sheet, flangeArea = 3.0 * flange * sheet;
    const double flangeCentre = 0.5 * sheet + 0.5 * flange;
    const double centre = flangeArea * flangeCentre / (webArea + flangeArea);
    const double ofWeb = web * sheet * sheet * sheet / 12.0 + webArea * centre * centre;
    const double ofFlanges =
        3.0 * sheet * flange * flange * flange / 12.0 + flangeArea * (flangeCentre - centre) * (flangeCentre - centre);
    // Out of the plane the web is tall and the flanges lie on its ends and in its middle; open thin sections hardly resist twisting.
    const double upright = sheet * web * web * web / 12.0 + flangeArea / 3.0 * 0.5 * web * web;
    const double torsion = (web + 3.0 * flange) * sheet * sheet * sheet / 3.0;
    return { webArea + flangeArea, ofWeb + ofFlanges, upright, torsion, "steel" };
}

RingSection rectangle (double height, double thickness, const std::string& material)
{
    const double cube = thickness * thickness * thickness;
    return { height * thickness, height * cube / 12.0, thickness * height * height * height / 12.0,
             height * cube / 3.0 * (1.0 - 0.63 * thickness / height), material };
}

} // namespace

RingSection shellSection (double thickness, double depth, const std::string& material)
{
    return rectangle (depth, thickness, material);
}

RingSection sectionOf (HoopSpec hoop)
{
    constexpr double flangeWidth = 9.0e-3;
    switch (hoop.kind)
    {
    case HoopSpec::Kind::flanged23:
        return flanged (2.3e-3, flangeWidth);
    case HoopSpec::Kind::cast:
        return rectangle (40.0e-3, 5.0e-3, "zinc");
    case HoopSpec::Kind::wood:
        return rectangle (hoopHeight, 10.0e-3, "maple");
    case HoopSpec::Kind::flanged16:
        break;
    }
    return flanged (1.6e-3, flangeWidth);
}

} // namespace modal
