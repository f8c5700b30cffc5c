#pragma once

#include "Modal/DrumModes.h"

#include <vector>

namespace editor
{

/** Points along the drawn cross-section; peaks are searched at the same points. */
inline constexpr int sectionPoints = 97;

/** The basis functions of a head along a diameter: its displacement there is their weighted sum. */
class SectionShape
{
public:
    /** Points along a diameter from -radius to radius.

        @param angle  of the diameter, rad */
    SectionShape (const modal::DrumModes&, double angle, int points);

    int points() const noexcept { return pointCount; }

    /** @param field  one coefficient for each basis function
        @param out    points() displacements, m */
    void displacement (const float* field, float* out) const;

private:
    int pointCount, basisCount;
    std::vector<float> values; ///< [basis][point]
};

/** The largest absolute value; 0 of none. */
float largest (const std::vector<float>&);

/** A head's displacement over its whole area, on a square grid around it. */
class PlanShape
{
public:
    /** @param size  points along an edge of the square that just holds the head */
    PlanShape (const modal::DrumModes&, int size);

    int size() const noexcept { return edge; }
    bool isInside (int x, int y) const noexcept { return inside[static_cast<std::size_t> (y * edge + x)]; }

    /** Rows of size() displacements, as on the screen: y down, angles clockwise; 0 outside the head. */
    void displacement (const float* field, std::vector<float>& out) const;

private:
    struct Angular
    {
        int m;
        bool isSine;
    };

    int edge, rings, basisCount;
    std::vector<int> groupOf; ///< [basis] index into groups
    std::vector<Angular> groups;
    std::vector<float> radial; ///< [basis][ring]
    std::vector<float> turn;   ///< [group][point], cos mθ or sin mθ
    std::vector<float> ringOf; ///< [point], radius in rings
    std::vector<bool> inside;
};

} // namespace editor
