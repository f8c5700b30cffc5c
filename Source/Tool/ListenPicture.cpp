#include "ListenPicture.h"

#include "OutputFile.h"
#include "OutputTarget.h"

#include "Listening/Spectrogram.h"
#include "Modal/NumberText.h"
#include "Modal/pitch/Note.h"
#include "Sheets/Canvas.h"

#include <algorithm>
#include <cmath>

namespace tool
{

using sheets::Align;
using sheets::Canvas;

namespace
{
constexpr double plotWidth = 300.0, plotHeight = 260.0, frequencyAxisWidth = 42.0, labelWidth = 130.0, gap = 24.0,
                 margin = 30.0; // points
constexpr double headingHeight = 40.0, axisHeight = 30.0, lineHeight = 9.0;
constexpr double panelWidth = frequencyAxisWidth + plotWidth + labelWidth + gap,
                 panelHeight = headingHeight + plotHeight + axisHeight;
constexpr std::size_t mostPanels = 12, mostColumns = 2;

constexpr double before = 0.05, after = 0.85;                // s about the blow
constexpr double lowest = 60.0, highest = 1200.0;            // Hz
constexpr double cellWidth = 3.0, cellHeight = 2.0;          // points
constexpr double shownRange = 60.0, fadedBy = 40.0;          // dB
constexpr sheets::Colour partialColour{ 0.851, 0.467, 0.0 }; // stands out from greys by brightness as well as by hue

struct Panel
{
    double left, top; ///< of the plot

    double xOf (double sinceBlow) const { return left + (sinceBlow + before) / (before + after) * plotWidth; }
    double yOf (double hertz) const { return top + std::log (highest / hertz) / std::log (highest / lowest) * plotHeight; }
};

void drawSpectrogram (Canvas& canvas, const Panel& panel, const listening::Recording& recording, const listening::Tap& tap)
{
    const double step = cellWidth / plotWidth * (before + after);
    const auto spectrogram = listening::spectrogramOf (recording, tap.lastBlow - before, tap.lastBlow + after, step, highest);

    for (double x = 0.0; x < plotWidth; x += cellWidth)
        for (double y = 0.0; y < plotHeight; y += cellHeight)
        {
            const double frequency = highest * std::pow (lowest / highest, (y + 0.5 * cellHeight) / plotHeight);
            const double level = spectrogram.at (spectrogram.firstTime + (x / cellWidth) * step, frequency);

            if (const double grey = std::min (1.0, -level / shownRange); grey < 1.0)
                canvas.area (panel.left + x, panel.top + y, cellWidth, cellHeight, grey);
        }
}

void drawAxes (Canvas& canvas, const Panel& panel)
{
    canvas.box (panel.left, panel.top, plotWidth, plotHeight, 0.5);

    for (const double hertz : { 60.0, 100.0, 150.0, 200.0, 300.0, 400.0, 600.0, 800.0, 1200.0 })
    {
        canvas.line (panel.left - 3.0, panel.yOf (hertz), panel.left, panel.yOf (hertz), 0.5);
        canvas.text (panel.left - 5.0, panel.yOf (hertz) + 2.5, modal::fixedText (hertz, 0), 7.0, Align::right);
    }

    for (const double time : { 0.0, 0.2, 0.4, 0.6, 0.8 })
    {
        canvas.line (panel.xOf (time), panel.top + plotHeight, panel.xOf (time), panel.top + plotHeight + 3.0, 0.5);
        canvas.text (panel.xOf (time), panel.top + plotHeight + 11.0, modal::fixedText (time, 1), 7.0, Align::middle);
    }

    canvas.text (panel.left - 5.0, panel.top - 6.0, "Hz", 7.0, Align::right);
    canvas.text (panel.left + plotWidth, panel.top + plotHeight + 20.0, "s after the blow", 7.0, Align::right);
}

/** One partial drawn over the spectrogram. */
void drawPartial (Canvas& canvas, const Panel& panel, const fitting::Partial& partial, double end)
{
    constexpr double step = 0.01; // s
    const double audible = std::min ({ fadedBy / 20.0 * std::log (10.0) / partial.decay, after, end });

    for (double t = 0.0; t + step <= audible; t += step)
        canvas.line (panel.xOf (t), panel.yOf (partial.frequencyAt (t)), panel.xOf (t + step),
                     panel.yOf (partial.frequencyAt (t + step)), 0.8, partialColour);

    // To its label.
    if (audible < after)
        canvas.line (panel.xOf (std::max (0.0, audible)), panel.yOf (partial.frequencyAt (audible)), panel.left + plotWidth,
                     panel.yOf (partial.frequency), 0.15, partialColour);
}

/** Notes and rings beside the plot, each as near to its partial as the others leave room. */
void drawLabels (Canvas& canvas, const Panel& panel, const std::vector<fitting::Partial>& partials)
{
    const double right = panel.left + plotWidth;

    if (! partials.empty())
        canvas.text (right + 12.0, panel.top - 10.0, "at rest, note, ring to -60 dB", 7.0);

    double free = panel.top + plotHeight + lineHeight; // above this y

    for (std::size_t i = 0; i < partials.size(); ++i)
    {
        const auto& partial = partials[i];
        const auto above = static_cast<double> (partials.size() - 1 - i); // labels that still have to fit
        const double y = std::clamp (panel.yOf (partial.frequency), panel.top + above * lineHeight,
                                     std::max (free - lineHeight, panel.top + above * lineHeight));
        free = y;
        canvas.line (right, panel.yOf (partial.frequency), right + 10.0, y, 0.4, partialColour);
        canvas.text (right + 12.0, y + 2.5,
                     modal::fixedText (partial.frequency, 1) + " Hz  " +
                         modal::Note::fromFrequency (partial.frequency).nameWithCents() + "  " +
                         modal::fixedText (partial.t60(), 2) + " s",
                     7.0);
    }
}

void drawTap (Canvas& canvas, double left, double top, const HeardFile& heard, std::size_t index)
{
    const auto& tap = heard.taps[index];
    const Panel panel{ left + frequencyAxisWidth, top + headingHeight };
    canvas.text (panel.left, top + 14.0, heard.name + ", tap " + std::to_string (index + 1), 9.0, Align::left, true);
    canvas.text (panel.left, top + 26.0, "at " + modal::fixedText (tap.lastBlow, 2) + " s", 7.0);
    drawSpectrogram (canvas, panel, heard.recording, tap);

    std::vector<fitting::Partial> shown;
    std::copy_if (heard.partials[index].begin(), heard.partials[index].end(), std::back_inserter (shown),
                  [] (const auto& p) { return p.frequency > lowest && p.frequency < highest; });

    for (const auto& partial : shown)
        drawPartial (canvas, panel, partial, tap.end - tap.lastBlow);

    drawAxes (canvas, panel);
    drawLabels (canvas, panel, shown);
}
} // namespace

void writeListenPicture (const Arguments& arguments, const std::vector<HeardFile>& files)
{
    const auto target = outputTarget (arguments, "picture", { ".svg", ".pdf", ".png" });

    if (! target)
        return;

    std::vector<std::pair<const HeardFile*, std::size_t>> panels;

    for (const auto& file : files)
        for (std::size_t i = 0; i < file.taps.size() && panels.size() < mostPanels; ++i)
            panels.emplace_back (&file, i);

    const auto columns = std::clamp<std::size_t> (panels.size(), 1, mostColumns), rows = (panels.size() + columns - 1) / columns;
    const double width = 2.0 * margin + static_cast<double> (columns) * panelWidth;
    const double height = 2.0 * margin + 20.0 + static_cast<double> (std::max<std::size_t> (rows, 1)) * panelHeight;
    const auto draw = [&] (Canvas& canvas)
    {
        canvas.text (margin, margin,
                     "Grey: level, darker is louder (60 dB). Lines: partials until they have faded by 40 dB; thin lines lead to their labels.",
                     8.0);

        if (panels.empty())
            canvas.text (margin, margin + 30.0, "No taps found.", 10.0);

        for (std::size_t i = 0; i < panels.size(); ++i)
            drawTap (canvas, margin + static_cast<double> (i % columns) * panelWidth,
                     margin + 20.0 + static_cast<double> (i / columns) * panelHeight, *panels[i].first, panels[i].second);
    };
    const auto format = *target == "-" ? sheets::Format::svg : sheets::formatOf (*target, "--picture");
    writeText (*target, sheets::drawn (format, width, height, draw));
}

} // namespace tool
