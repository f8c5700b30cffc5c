#pragma once

#include "Theme.h"

#include "Finding/Find.h"

#include <juce_graphics/juce_graphics.h>

namespace editor
{

/** A tuning as the map places it: the batter's tap note as a MIDI note number with fractions, the interval in semitones. */
struct TuningSpot
{
    double batter = 0.0, interval = 0.0;
};

/** The part of the map that is in view. */
struct MapFrame
{
    double lowestBatter = 0.0, highestBatter = 0.0;       ///< MIDI note numbers
    double lowestInterval = -5.0, highestInterval = 12.0; ///< semitones

    /** As shares of the frame, x to the right, y downwards. */
    juce::Point<float> shareOf (TuningSpot) const;
    TuningSpot spotAt (juce::Point<float> share) const;
    TuningSpot nearest (TuningSpot) const;
};

/** Why a tuning cannot be had; empty if it can. */
juce::String whyNot (const finding::TuningMap&, double batterHertz, double resonantHertz);

/** What the map page draws, computed once: shading, contours, limits. Immutable. */
struct MapPicture
{
    struct Contour
    {
        juce::String note; ///< "D3"
        juce::Path line;   ///< in shares of the frame
        juce::Point<float> label;
        bool isNatural;
    };
    struct Region
    {
        juce::String reason;
        juce::Point<float> centre; ///< share of the frame
        float share;               ///< of the frame's area
    };

    MapFrame frame;
    juce::Image shading;
    std::vector<Contour> contours;
    std::vector<Region> regions;                 ///< that cannot be had
    double batterHalf = 0.0, resonantHalf = 0.0; ///< MIDI note numbers at half of the yield strength
    double least = 0.0, most = 0.0;              ///< of the figure, NaN if it is not known anywhere
    finding::Figure figure = finding::Figure::drumNote;
};

/** What a picture is made from. */
struct MapContent
{
    std::shared_ptr<const finding::TuningMap> map;
    std::shared_ptr<const finding::PlayedMap> played; ///< null: figures of played strokes are not known
    finding::Figure figure = finding::Figure::drumNote;
    std::vector<finding::Wish> wishes; ///< what misses one is dimmed
    std::optional<finding::Present> present;
    modal::ConcertPitch pitch;
    finding::MapArea prudent{};                           ///< both heads below half of their yield strength
    std::shared_ptr<const place::NoteAtListener> place{}; ///< null: there is no place
};

/** The frame that shows a drum: up to a semitone beyond the batter's highest note, two octaves wide. */
MapFrame frameOf (const finding::MapArea&, modal::ConcertPitch);

/** Some tens of milliseconds; any thread. */
std::shared_ptr<const MapPicture> drawMap (const MapContent&, const Theme&);

/** Figures of the map at a tuning, with those of played strokes and of the place if they are known. */
finding::Figures figuresAt (const MapContent&, TuningSpot);

} // namespace editor
