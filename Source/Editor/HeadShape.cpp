#include "HeadShape.h"

#include <algorithm>
#include <cmath>

namespace editor
{

float largest (const std::vector<float>& values)
{
    float most = 0.0f;
    for (const float value : values)
        most = std::max (most, std::abs (value));
    return most;
}

SectionShape::SectionShape (const modal::DrumModes& modes, double angle, int points)
    : pointCount (points), basisCount (static_cast<int> (modes.basis.size())),
      values (static_cast<std::size_t> (points) * modes.basis.size())
{
    float* to = values.data();
    for (const auto& function : modes.basis)
        for (int i = 0; i < points; ++i)
        {
            const double x = modes.radius * (2.0 * i / (points - 1) - 1.0);
            *to++ = static_cast<float> (function.at (std::abs (x), x < 0.0 ? angle + std::acos (-1.0) : angle, modes.radius));
        }
}

void SectionShape::displacement (const float* field, float* out) const
{
    std::fill_n (out, pointCount, 0.0f);
    const float* row = values.data();
    for (int b = 0; b < basisCount; ++b, row += pointCount)
        if (field[b] != 0.0f)
            for (int i = 0; i < pointCount; ++i)
                out[i] += field[b] * row[i];
}

PlanShape::PlanShape (const modal::DrumModes& modes, int size)
    : edge (size), rings (size / 2 + 1), basisCount (static_cast<int> (modes.basis.size()))
{
    for (const auto& function : modes.basis)
    {
        const bool isSine = function.parity == modal::Parity::sine;
        const auto same = std::find_if (groups.begin(), groups.end(),
                                        [&] (const Angular& g) { return g.m == function.m && g.isSine == isSine; });
        groupOf.push_back (static_cast<int> (same - groups.begin()));
        if (same == groups.end())
            groups.push_back ({ function.m, isSine });
        const double crest = isSine ? std::acos (-1.0) / (2.0 * function.m) : 0.0;
        for (int k = 0; k < rings; ++k)
            radial.push_back (static_cast<float> (function.at (modes.radius * k / (rings - 1), crest, modes.radius)));
    }
    const auto points = static_cast<std::size_t> (edge * edge);
    ringOf.resize (points);
    inside.resize (points);
    turn.resize (groups.size() * points);
    for (int y = 0; y < edge; ++y)
        for (int x = 0; x < edge; ++x)
        {
            const auto point = static_cast<std::size_t> (y * edge + x);
            const double u = (2.0 * x + 1.0) / edge - 1.0, v = (2.0 * y + 1.0) / edge - 1.0, r = std::hypot (u, v);
            inside[point] = r < 1.0;
            ringOf[point] = static_cast<float> (std::min (r, 0.9999) * (rings - 1));
            for (std::size_t g = 0; g < groups.size(); ++g)
            {
                const double phase = groups[g].m * std::atan2 (v, u);
                turn[g * points + point] = static_cast<float> (groups[g].isSine ? std::sin (phase) : std::cos (phase));
            }
        }
}

void PlanShape::displacement (const float* field, std::vector<float>& out) const
{
    // Sums along the radius for each angular order first, then around: far fewer products than one per function and point.
    std::vector<float> along (groups.size() * static_cast<std::size_t> (rings), 0.0f);
    std::vector<bool> isUsed (groups.size(), false);
    for (int b = 0; b < basisCount; ++b)
    {
        if (field[b] == 0.0f)
            continue;
        const auto group = static_cast<std::size_t> (groupOf[static_cast<std::size_t> (b)]);
        isUsed[group] = true;
        float* to = along.data() + group * static_cast<std::size_t> (rings);
        const float* from = radial.data() + static_cast<std::size_t> (b * rings);
        for (int k = 0; k < rings; ++k)
            to[k] += field[b] * from[k];
    }
    const auto points = static_cast<std::size_t> (edge * edge);
    out.assign (points, 0.0f);
    for (std::size_t g = 0; g < groups.size(); ++g)
    {
        if (! isUsed[g])
            continue;
        const float* profile = along.data() + g * static_cast<std::size_t> (rings);
        const float* angular = turn.data() + g * points;
        for (std::size_t p = 0; p < points; ++p)
        {
            if (! inside[p])
                continue;
            const auto k = static_cast<std::size_t> (ringOf[p]);
            const float share = ringOf[p] - static_cast<float> (k);
            out[p] += angular[p] * (profile[k] + share * (profile[k + 1] - profile[k]));
        }
    }
}

} // namespace editor
