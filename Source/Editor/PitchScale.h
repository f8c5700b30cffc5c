#pragma once

namespace editor
{

/** Maps frequency to height on the screen; equal intervals have equal height. */
class PitchScale
{
public:
    /** @param lowest, highest  Hz, shown at `bottom` and `top` (y in pixels, downwards) */
    PitchScale (double lowest, double highest, float top, float bottom) noexcept;
    PitchScale() noexcept : PitchScale (100.0, 800.0, 0.0f, 100.0f) {}

    float yOf (double hertz) const noexcept;
    double hertzAt (float y) const noexcept;
    float pixelsPerSemitone() const noexcept;

    double lowest() const noexcept { return low; }
    double highest() const noexcept { return high; }

private:
    double low, high;
    float topEdge, bottomEdge;
};

} // namespace editor
