#include "Picture.h"

#include "MelDistance.h"

#include <algorithm>
#include <cmath>

namespace recordings
{

namespace
{
constexpr double cellWidth = 190.0, cellHeight = 230.0, margin = 40.0; // points
constexpr double plotWidth = 160.0, spectrogramHeight = 90.0, decayHeight = 80.0;
constexpr double shownTime = 0.5, shownRange = 60.0; // s, dB

struct Plot
{
    double left, top;
};

double acrossOf (double time)
{
    return time / shownTime * plotWidth;
}

/** Black is loudest. */
void drawSpectrogram (sheets::Canvas& page, Plot at, const listening::Recording& stroke)
{
    const auto spectrogram = melSpectrogram (stroke);
    const double bandHeight = spectrogramHeight / MelSpectrogram::bands, frameWidth = acrossOf (MelSpectrogram::step);

    for (std::size_t i = 0; static_cast<double> (i) * frameWidth < plotWidth - 0.5 * frameWidth; ++i)
        for (int band = 0; band < MelSpectrogram::bands; ++band)
            page.area (at.left + static_cast<double> (i) * frameWidth, at.top + spectrogramHeight - (band + 1) * bandHeight,
                       frameWidth, bandHeight, spectrogram.levels[i][static_cast<std::size_t> (band)] / MelSpectrogram::floor);

    page.box (at.left, at.top, plotWidth, spectrogramHeight, 0.5);
}

/** Each octave against its loudest 5 ms; the higher the octave, the darker the line. */
void drawDecays (sheets::Canvas& page, Plot at, const listening::Recording& stroke)
{
    for (auto octave = octave1k; octave < octaves.size(); ++octave)
    {
        const auto energies = shortEnergies (
            butterworthBand (stroke.samples, stroke.sampleRate, octaves[octave], 2.0 * octaves[octave]), stroke.sampleRate);
        const double loudest = *std::max_element (energies.begin(), energies.end());
        const double grey = 0.2 * static_cast<double> (octaves.size() - 1 - octave);
        const auto downOf = [&] (std::size_t i)
        {
            const double level = 10.0 * std::log10 (std::max (energies[i] / loudest, 1.0e-12));
            return at.top + std::min (1.0, -level / shownRange) * decayHeight;
        };
        constexpr std::size_t each = 5; // a point each 5 ms

        for (std::size_t i = 0; acrossOf (1.0e-3 * static_cast<double> (i + each)) <= plotWidth; i += each)
            page.line (at.left + acrossOf (1.0e-3 * static_cast<double> (i)), downOf (i),
                       at.left + acrossOf (1.0e-3 * static_cast<double> (i + each)), downOf (i + each), 0.8, grey);
    }

    page.box (at.left, at.top, plotWidth, decayHeight, 0.5);
}
} // namespace

std::string picture (const std::vector<StrokeSet>& sets, sheets::Format format)
{
    const double width = 2.0 * margin + cellWidth * static_cast<double> (classNames.size());
    const double height = 2.0 * margin + cellHeight * static_cast<double> (sets.size());

    return sheets::drawn (format, width, height,
                          [&] (sheets::Canvas& page)
                          {
                              page.text (margin, 24.0,
                                         "Above: 60 Hz to 16 kHz (mel), 0.5 s, 60 dB. Below: decays of 1, 2, 4, 8 kHz "
                                         "octaves (light to dark), 0.5 s, 60 dB.",
                                         9.0);
                              for (std::size_t row = 0; row < sets.size(); ++row)
                                  for (std::size_t column = 0; column < classNames.size(); ++column)
                                  {
                                      const auto& [strokes, folder, words] = classNames[column];
                                      const auto found = sets[row].strokes.find (strokes);
                                      if (found == sets[row].strokes.end())
                                          continue;
                                      const Plot at{ margin + cellWidth * static_cast<double> (column),
                                                     margin + cellHeight * static_cast<double> (row) + 16.0 };
                                      page.text (at.left, at.top - 5.0, sets[row].name + ": " + words, 8.0);
                                      drawSpectrogram (page, at, found->second.front());
                                      drawDecays (page, { at.left, at.top + spectrogramHeight + 8.0 }, found->second.front());
                                  }
                          });
}

} // namespace recordings
