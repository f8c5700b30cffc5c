#pragma once

namespace modal
{

/** Height of a head at rest whose bearing edge has snare beds: dips on either end of the wires.

    A head under even tension without load takes the shape Δw = 0 (Laplace), which its edge alone decides
    (Poisson's integral; e.g. Kreyszig, Advanced Engineering Mathematics, section 12.10). The dip is a raised cosine. */
class SnareBed
{
public:
    /** @param headRadius m
        @param depth      m, how far the edge is cut back in the middle of a bed, 0 or more
        @param span       m of the edge along which a bed is cut, above 0, less than a half of the edge */
    SnareBed (double headRadius, double depth, double span);

    /** m towards the wires, at x along them and y across from the centre, within the head: 0 on an edge without beds, negative
        where the head follows them. */
    double height (double x, double y) const;

private:
    double radius, depth, halfAngle;
};

} // namespace modal
