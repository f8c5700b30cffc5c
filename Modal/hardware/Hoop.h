#pragma once

#include <string>

namespace modal
{

/** A hoop as a ring of constant section. */
struct HoopSpec
{
    enum class Kind
    {
        flanged16, ///< rolled steel, 1.6 mm, three flanges
        flanged23, ///< rolled steel, 2.3 mm, three flanges
        cast,      ///< die-cast zinc
        wood       ///< bent maple
    };

    Kind kind = Kind::flanged16;
};

/** Cross section of a ring: what its bending and inertia depend on. */
struct RingSection
{
    double area;          ///< m²
    double secondMoment;  ///< m⁴, for bending in the ring's plane (about the axis along the drum)
    double uprightMoment; ///< m⁴, for bending out of that plane
    double torsion;       ///< m⁴, Saint-Venant's constant
    std::string material; ///< a name that findMaterial() knows, or "zinc"
};

/** Section of a hoop: height 38 mm for rolled steel with flanges of 9 mm, 40 × 5 mm cast, 38 × 10 mm wood.
    Common practice, no source. */
RingSection sectionOf (HoopSpec);

/** Section of a shell: a plain tube's wall. Thickness and depth in m. */
RingSection shellSection (double thickness, double depth, const std::string& material);

} // namespace modal
