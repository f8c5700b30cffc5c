#include "LugMap.h"

#include "Modal/Units.h"

#include <cmath>

namespace sheets
{

void draw (Canvas& canvas, const LugMap& map, double x, double y, double radius)
{
    constexpr double mark = 10.0, textSize = 9.0, smallSize = 7.5, labelLine = 8.5, faint = 0.6;
    canvas.circle (x, y, radius, 1.2);

    constexpr double line = 11.0, belowMiddle = 3.0;
    double lineY = y + belowMiddle - 0.5 * line * (static_cast<double> (map.words.size()) - 1.0);

    for (const auto& words : map.words)
    {
        canvas.text (x, lineY, words, smallSize, Align::middle);
        lineY += line;
    }

    std::vector<std::size_t> place (static_cast<std::size_t> (map.lugs));

    for (std::size_t i = 0; i < map.order.size(); ++i)
        place[static_cast<std::size_t> (map.order[i])] = i + 1;

    for (int k = 0; k < map.lugs; ++k)
    {
        const auto index = static_cast<std::size_t> (k);
        const double angle = (map.isFromBelow ? -1.0 : 1.0) * modal::units::twoPi * k / map.lugs;
        const double cosine = std::cos (angle), sine = std::sin (angle);
        const auto at = [&] (double r) { return std::pair{ x + r * cosine, y - r * sine }; };
        const auto [markX, markY] = at (radius);
        canvas.disc (markX, markY, mark, 1.0);
        canvas.circle (markX, markY, mark, 1.0);
        canvas.text (markX, markY + 3.2, std::to_string (k + 1), textSize, Align::middle, true);

        const auto [placeX, placeY] = at (radius - 18.0);
        canvas.text (placeX, placeY + 2.6, std::to_string (place[index]), smallSize, Align::middle, false, 0.25);

        if (index < map.labels.size())
        {
            // Above and below a label stands about its lug, at the sides it runs away from it.
            const auto [labelX, labelY] = at (radius + (std::abs (cosine) > 0.3 ? 14.0 : 22.0));
            const auto align = cosine > 0.3 ? Align::left : cosine < -0.3 ? Align::right : Align::middle;
            const auto& label = map.labels[index];
            const double lines = static_cast<double> (label.lines.size());

            // The lines lie about the label's middle at the sides, above it on top and under it at the bottom.
            double y0 = labelY + 3.0 - 0.5 * labelLine * (lines - 1.0) * (1.0 + sine);

            for (const auto& words : label.lines)
            {
                canvas.text (labelX, y0, words, smallSize, align, false, label.isVague ? faint : 0.0);
                y0 += labelLine;
            }
        }
    }
}

} // namespace sheets
