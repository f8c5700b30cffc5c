#pragma once

#include "Measures.h"

#include <array>
#include <filesystem>
#include <map>
#include <string>
#include <vector>

namespace recordings
{

/** What was struck, and whether the wires were on. */
enum class StrokeClass
{
    headOn,
    headOff,
    rimshotOn,
    rimshotOff
};

struct ClassName
{
    StrokeClass strokes;
    const char* folder; ///< of a kit's recordings
    const char* words;
};

inline constexpr std::array<ClassName, 4> classNames{ { { StrokeClass::headOn, "head-on", "head, wires on" },
                                                        { StrokeClass::headOff, "head-off", "head, wires off" },
                                                        { StrokeClass::rimshotOn, "rimshot-on", "rimshot, wires on" },
                                                        { StrokeClass::rimshotOff, "rimshot-off", "rimshot, wires off" } } };

/** The strokes of one drum: recorded, or played by the instrument. */
struct StrokeSet
{
    std::string name;
    std::map<StrokeClass, std::vector<listening::Recording>> strokes; ///< as strokeOf() cuts them; no class is empty
};

/** Reads a kit from a folder: one sound file a stroke (WAV, AIFF, FLAC, MP3), in a folder of its class. Throws modal::InputError
   naming what cannot be read, or if there is no stroke at all. */
StrokeSet readKit (const std::filesystem::path&);

/** All kits of a folder, one a folder, by name. */
std::vector<StrokeSet> readKits (const std::filesystem::path&);

/** Medians over the strokes of one class. */
StrokeMeasures medianMeasures (const std::vector<listening::Recording>& strokes);

/** How two classes of strokes of one drum differ. */
struct Comparison
{
    std::array<double, octaves.size()> levels; ///< dB by which an octave's level differs, each against its own 125 to 500 Hz
    double loudness = 0.0, loudnessA = 0.0;    ///< dB
};

Comparison compare (const StrokeMeasures&, const StrokeMeasures& against);

/** The mean over the three octaves from 1 to 8 kHz: how much brighter a rimshot is than a stroke on the head. dB. */
double brighter (const Comparison&);

} // namespace recordings
