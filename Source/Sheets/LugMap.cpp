#include "LugMap.h"

#include "Modal/Units.h"

#include <cmath>

namespace sheets
{

void draw (Canvas& canvas, const LugMap& map, double x, double y, double radius)
{
    constexpr double mark = 10.0, textSize = 9.0, smallSize = 7.5, labelLine = 8.5, faint = 0.6;
    canvas.circle (x, y, radius, 1.2);

    constexpr double line = 11.0, belowCentre = 3.0;
    double lineY = y + belowCentre - 0.5 * line * (static_cast<double> (map.words.size()) - 1.0);

    for (const auto& words : map.words)
    {
        canvas.text (x, lineY, words, smallSize, Align::middle);
        lineY += line;
    }

    for (int k = 0; k < map.lugs; ++k)
    {
        const auto index = static_cast<std::size_t> (k);
        const double clockwise = (map.isFromBelow ? -1.0 : 1.0) * modal::units::twoPi * k / map.lugs;
        const double cosine = std::sin (clockwise), sine = std::cos (clockwise); // of the angle from the right
        const auto at = [&] (double r) { return std::pair{ x + r * cosine, y - r * sine }; };
        const auto [markX, markY] = at (radius);
        canvas.disc (markX, markY, mark, 1.0);
        canvas.circle (markX, markY, mark, 1.0);
        canvas.text (markX, markY + 3.2, std::to_string (k + 1), textSize, Align::middle, true);

        if (index < map.labels.size())
        {
            // At the sides a label starts or ends beside its lug; at the top and bottom it is centred on it.
            const auto [labelX, labelY] = at (radius + (std::abs (cosine) > 0.3 ? 14.0 : 22.0));
            const auto align = cosine > 0.3 ? Align::left : cosine < -0.3 ? Align::right : Align::middle;
            const auto& label = map.labels[index];
            const double lines = static_cast<double> (label.lines.size());

            // At the sides the lines are centred on the lug, at the top they end above it, at the bottom they begin below it.
            double y0 = labelY + 3.0 - 0.5 * labelLine * (lines - 1.0) * (1.0 + sine);

            for (const auto& words : label.lines)
            {
                canvas.text (labelX, y0, words, smallSize, align, false, label.isUncertain ? faint : 0.0);
                y0 += labelLine;
            }
        }
    }
}

} // namespace sheets
