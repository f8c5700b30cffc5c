#include "CostPlot.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <fstream>

namespace bench
{

namespace
{

constexpr double panelWidth = 300.0, panelHeight = 220.0, left = 56.0, right = 14.0, top = 30.0, bottom = 40.0;

std::string number (double x)
{
    char text[32];
    std::snprintf (text, sizeof text, "%.0f", x);
    return text;
}

std::string coordinate (double x)
{
    char text[32];
    std::snprintf (text, sizeof text, "%.1f", x);
    return text;
}

std::string textAt (double x, double y, const std::string& anchor, const std::string& words)
{
    return "<text x=\"" + coordinate (x) + "\" y=\"" + coordinate (y) + "\" text-anchor=\"" + anchor + "\">" + words +
           "</text>\n";
}

std::string lineFrom (double x1, double y1, double x2, double y2, const char* colour)
{
    return "<line x1=\"" + coordinate (x1) + "\" y1=\"" + coordinate (y1) + "\" x2=\"" + coordinate (x2) + "\" y2=\"" +
           coordinate (y2) + "\" stroke=\"" + colour + "\"/>\n";
}

/** At least so much: 1, 2 or 5 times a power of ten. */
double roundStep (double least)
{
    const double power = std::pow (10.0, std::floor (std::log10 (least)));
    for (const double times : { 1.0, 2.0, 5.0 })
        if (times * power >= least)
            return times * power;
    return 10.0 * power;
}

std::string panel (const CostCurve& curve, double offset)
{
    double narrowest = curve.points.front().size, widest = narrowest, highest = 1.0;
    for (const auto& point : curve.points)
    {
        narrowest = std::min (narrowest, point.size);
        widest = std::max (widest, point.size);
        highest = std::max (highest, point.nanoseconds);
    }
    // Sizes by ratio, so that small ones have room; costs from nought, in steps that are easily read.
    const double step = roundStep (highest / 4.0);
    highest = 1.05 * highest;
    constexpr double margin = 14.0, end = panelWidth - right;
    const auto x = [&] (double size)
    {
        const double share = std::log (size / narrowest) / std::log (widest / narrowest);
        return offset + left + margin + share * (panelWidth - left - right - 2.0 * margin);
    };
    const auto y = [&] (double cost) { return panelHeight - bottom - cost / highest * (panelHeight - top - bottom); };

    std::string out = lineFrom (offset + left, y (0), offset + end, y (0), "#444") +
                      lineFrom (offset + left, y (0), offset + left, y (highest), "#444");
    for (double cost = step; cost < highest; cost += step)
    {
        out += lineFrom (offset + left, y (cost), offset + end, y (cost), "#ddd");
        out += textAt (offset + left - 6.0, y (cost) + 4.0, "end", number (cost));
    }
    std::string path;
    for (const auto& point : curve.points)
    {
        path += (path.empty() ? "" : " ") + coordinate (x (point.size)) + "," + coordinate (y (point.nanoseconds));
        out += "<circle cx=\"" + coordinate (x (point.size)) + "\" cy=\"" + coordinate (y (point.nanoseconds)) +
               "\" r=\"3\" fill=\"#245\"/>\n";
        out += textAt (x (point.size), panelHeight - bottom + 16.0, "middle", number (point.size));
    }
    out += "<polyline fill=\"none\" stroke=\"#245\" stroke-width=\"1.5\" points=\"" + path + "\"/>\n";
    out += textAt (offset + panelWidth / 2.0, 16.0, "middle", "ns a sample");
    out += textAt (offset + panelWidth / 2.0, panelHeight - 6.0, "middle", curve.title);
    return out;
}

} // namespace

bool writeCostPlot (const std::string& file, const std::vector<CostCurve>& curves)
{
    std::ofstream out (file);
    const double width = panelWidth * static_cast<double> (curves.size());
    out << "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"" << width << "\" height=\"" << panelHeight << "\" viewBox=\"0 0 "
        << width << " " << panelHeight << "\" font-family=\"sans-serif\" font-size=\"11\">\n"
        << "<rect width=\"100%\" height=\"100%\" fill=\"white\"/>\n";
    for (std::size_t i = 0; i < curves.size(); ++i)
        out << panel (curves[i], panelWidth * static_cast<double> (i));
    out << "</svg>\n";
    return out.good();
}

} // namespace bench
