#include "MapPicture.h"

#include "NoteText.h"
#include "Strings.h"

#include <cmath>
#include <map>

namespace editor
{
namespace
{
using finding::Figure;

constexpr int columns = 220, rows = 150; // of the shading, drawn larger and smoothly

double resonantHertz (TuningSpot spot, modal::ConcertPitch pitch)
{
    return hertzOfMidi (spot.batter + spot.interval, pitch);
}

/** One cell of the shading. */
struct Cell
{
    double value = std::numeric_limits<double>::quiet_NaN();
    bool isPossible = false, meets = false;
};

juce::Point<float> shareOfCell (int column, int row)
{
    return { (static_cast<float> (column) + 0.5f) / columns, (static_cast<float> (row) + 0.5f) / rows };
}

std::vector<Cell> cellsOf (const MapContent& content, const MapFrame& frame)
{
    std::vector<Cell> cells;
    cells.reserve (static_cast<std::size_t> (columns * rows));
    for (int row = 0; row < rows; ++row)
        for (int column = 0; column < columns; ++column)
        {
            const auto figures = figuresAt (content, frame.spotAt (shareOfCell (column, row)));
            cells.push_back ({ of (figures, content.figure), ! std::isnan (of (figures, Figure::drumNote)),
                               meetsAll (figures, content.wishes) });
        }
    return cells;
}

juce::Image shadingOf (const std::vector<Cell>& cells, const MapPicture& picture, const Theme& theme)
{
    juce::Image image (juce::Image::RGB, columns, rows, false, juce::SoftwareImageType());
    const auto cellAt = [&] (int column, int row) -> const Cell& {
        return cells[static_cast<std::size_t> (juce::jlimit (0, rows - 1, row) * columns +
                                               juce::jlimit (0, columns - 1, column))];
    };
    const auto strength = [&] (double value)
    {
        const double steps = stepsBetween (picture.figure, picture.least, value),
                     all = stepsBetween (picture.figure, picture.least, picture.most);
        return std::isfinite (steps) && all > 0.0 ? static_cast<float> (juce::jlimit (0.0, 1.0, steps / all)) : 0.0f;
    };
    for (int row = 0; row < rows; ++row)
        for (int column = 0; column < columns; ++column)
        {
            const auto& cell = cellAt (column, row);
            auto colour = theme.line.interpolatedWith (theme.paper, 0.35f);
            if (cell.isPossible)
            {
                colour = theme.sheet.interpolatedWith (theme.drum, 0.06f + 0.6f * strength (cell.value));
                if (! cell.meets)
                    colour = colour.withMultipliedSaturation (0.25f).interpolatedWith (theme.paper, 0.7f);
                else if (! cellAt (column - 1, row).meets || ! cellAt (column + 1, row).meets ||
                         ! cellAt (column, row - 1).meets || ! cellAt (column, row + 1).meets)
                    colour = theme.ink.interpolatedWith (theme.drum, 0.4f); // the edge of what meets the wishes
            }
            image.setPixelAt (column, row, colour);
        }
    return image;
}

std::vector<MapPicture::Contour> contoursOf (const MapContent& content, const MapFrame& frame)
{
    constexpr int steps = 60; // along the batter's note
    std::vector<MapPicture::Contour> contours;
    const int lowest = static_cast<int> (std::floor (frame.lowestBatter)) - 12,
              highest = static_cast<int> (std::ceil (frame.highestBatter)) + 12;
    for (int midi = lowest; midi <= highest; ++midi)
    {
        MapPicture::Contour contour{ noteOfMidi (midi), {}, {}, isNatural (midi) };
        const double drumNote = hertzOfMidi (midi, content.pitch);
        bool isOpen = false;
        std::vector<juce::Point<float>> points;
        for (int i = 0; i <= steps; ++i)
        {
            const double batter = frame.lowestBatter + (frame.highestBatter - frame.lowestBatter) * i / steps;
            const auto resonant = content.map->resonantNoteFor (hertzOfMidi (batter, content.pitch), drumNote);
            const double interval = resonant ? midiOfHertz (*resonant, content.pitch) - batter : std::nan ("");
            if (! (interval >= frame.lowestInterval && interval <= frame.highestInterval))
            {
                isOpen = false;
                continue;
            }
            const auto share = frame.shareOf ({ batter, interval });
            if (isOpen)
                contour.line.lineTo (share);
            else
                contour.line.startNewSubPath (share);
            isOpen = true;
            points.push_back (share);
        }
        if (points.size() < 4)
            continue;
        contour.label = points[points.size() * 2 / 5];
        contours.push_back (std::move (contour));
    }
    return contours;
}

std::vector<MapPicture::Region> regionsOf (const MapContent& content, const MapFrame& frame)
{
    struct Sum
    {
        juce::Point<float> centre;
        int cells = 0;
    };
    constexpr int every = 6; // cells
    std::map<juce::String, Sum> sums;
    int all = 0;
    for (int row = 0; row < rows; row += every)
        for (int column = 0; column < columns; column += every, ++all)
        {
            const auto share = shareOfCell (column, row);
            const auto spot = frame.spotAt (share);
            const auto reason =
                whyNot (*content.map, hertzOfMidi (spot.batter, content.pitch), resonantHertz (spot, content.pitch));
            if (reason.isEmpty())
                continue;
            sums[reason].centre += share;
            ++sums[reason].cells;
        }
    std::vector<MapPicture::Region> regions;
    for (const auto& [reason, sum] : sums)
        regions.push_back (
            { reason, sum.centre / static_cast<float> (sum.cells), static_cast<float> (sum.cells) / static_cast<float> (all) });
    return regions;
}

} // namespace

juce::Point<float> MapFrame::shareOf (TuningSpot spot) const
{
    return { static_cast<float> ((spot.batter - lowestBatter) / (highestBatter - lowestBatter)),
             static_cast<float> ((highestInterval - spot.interval) / (highestInterval - lowestInterval)) };
}

TuningSpot MapFrame::spotAt (juce::Point<float> share) const
{
    return { lowestBatter + static_cast<double> (share.x) * (highestBatter - lowestBatter),
             highestInterval - static_cast<double> (share.y) * (highestInterval - lowestInterval) };
}

TuningSpot MapFrame::nearest (TuningSpot spot) const
{
    return { juce::jlimit (lowestBatter, highestBatter, spot.batter),
             juce::jlimit (lowestInterval, highestInterval, spot.interval) };
}

juce::String whyNot (const finding::TuningMap& map, double batterHertz, double resonant)
{
    constexpr double nearYield = 0.95;
    const auto& area = map.area();
    const auto endsAtYield = [&] (Figure strength)
    { return of (map.at (area.batter.highest, area.resonant.highest, {}), strength) > nearYield; };
    if (batterHertz > area.batter.highest)
        return endsAtYield (Figure::batterStrength) ? strings::batterWouldYield : strings::noSuchBatterNote;
    if (resonant > area.resonant.highest)
        return endsAtYield (Figure::resonantStrength) ? strings::resonantWouldYield : strings::noSuchResonantNote;
    if (batterHertz < area.batter.lowest)
        return strings::batterSlack;
    return resonant < area.resonant.lowest ? strings::resonantSlack : "";
}

MapFrame frameOf (const finding::MapArea& area, modal::ConcertPitch pitch)
{
    constexpr double beyond = 1.0, width = 26.0; // semitones
    MapFrame frame;
    frame.highestBatter = std::ceil (midiOfHertz (area.batter.highest, pitch) + beyond);
    frame.lowestBatter = juce::jmax (std::floor (midiOfHertz (area.batter.lowest, pitch) - beyond), frame.highestBatter - width);
    return frame;
}

finding::Figures figuresAt (const MapContent& content, TuningSpot spot)
{
    const double batter = hertzOfMidi (spot.batter, content.pitch), resonant = resonantHertz (spot, content.pitch);
    auto figures = content.map->at (batter, resonant, content.present);
    if (! std::isnan (of (figures, Figure::drumNote)))
        addBeyondMap (figures, batter, resonant, content.played.get(), content.place.get());
    return figures;
}

std::shared_ptr<const MapPicture> drawMap (const MapContent& content, const Theme& theme)
{
    auto picture = std::make_shared<MapPicture>();
    picture->figure = content.figure;
    picture->frame = frameOf (content.map->area(), content.pitch);
    const auto cells = cellsOf (content, picture->frame);
    picture->least = picture->most = std::nan ("");
    for (const auto& cell : cells)
        if (cell.isPossible && std::isfinite (cell.value))
        {
            picture->least = std::isnan (picture->least) ? cell.value : juce::jmin (picture->least, cell.value);
            picture->most = std::isnan (picture->most) ? cell.value : juce::jmax (picture->most, cell.value);
        }
    picture->shading = shadingOf (cells, *picture, theme);
    picture->batterHalf = midiOfHertz (content.prudent.batter.highest, content.pitch);
    picture->resonantHalf = midiOfHertz (content.prudent.resonant.highest, content.pitch);
    picture->contours = contoursOf (content, picture->frame);
    picture->regions = regionsOf (content, picture->frame);
    return picture;
}

} // namespace editor
