#pragma once

#include "Spectrum.h"

#include "Listening/Recording.h"

#include <array>
#include <optional>
#include <string>

namespace recordings
{

/** What is measured of one stroke. Every measure compares a recording with itself, so that a microphone's sensitivity and the
    level of the recording do not matter. */

/** Octaves are named by their lower corners, Hz. */
inline constexpr std::array<double, 7> octaves{ 125.0, 250.0, 500.0, 1000.0, 2000.0, 4000.0, 8000.0 };
inline constexpr std::size_t octave1k = 3, octave2k = 4, octave4k = 5, octave8k = 6;

inline constexpr double windowTime = 5.0e-3; ///< s
inline constexpr double strokeTime = 0.8;    ///< s that are measured
inline constexpr double leadTime = 2.0e-3;   ///< s before the stroke that are kept

/** A stroke cut out of a recording: it begins `leadTime` before the first sample above 3 % of the peak and lasts `strokeTime`,
    with silence where the recording is shorter. */
listening::Recording strokeOf (const listening::Recording&);

/** Energy in windows of 5 ms that begin each millisecond. */
std::vector<double> shortEnergies (const Samples&, double rate);

struct BandMeasures
{
    double level = 0.0;        ///< dB, energy against that from 125 to 500 Hz
    double attack = 0.0;       ///< dB, the 5 ms from the first sample above 3 % of the peak on against the loudest 5 ms
    double peakTime = 0.0;     ///< s after the cut, `leadTime` before that sample, where the loudest 5 ms begin
    std::optional<double> t60; ///< s, from the fall from -5 to -35 dB after the loudest 5 ms; none if it does not fall so far
};

struct StrokeMeasures
{
    std::array<BandMeasures, octaves.size()> bands;
    double loudness = 0.0;  ///< dB, energy of the whole stroke, full scale 1; compares strokes of equal gain only
    double loudnessA = 0.0; ///< the same, A-weighted, as the ear has it
};

/** @param stroke  as strokeOf() gives it */
StrokeMeasures measure (const listening::Recording& stroke);

/** Gain of the A-weighting at a frequency in Hz (IEC 61672-1: 2013, annex E, from memory). */
double aWeighting (double frequency);

/** How far the lowest mode starts above where it comes to rest. */
struct Glide
{
    double rest = 0.0;  ///< Hz, from 0.3 s on
    double start = 0.0; ///< Hz, mean from 12 to 45 ms after the stroke began, when the stick has left, weighted by energy
    double cents() const;
};

/** The lowest mode is looked for between `low` and `high` Hz; nothing if the stroke has no energy there from 0.3 s on. */
std::optional<Glide> glideOf (const listening::Recording& stroke, double low, double high);

/** Of a list that is not empty; the mean of both middle ones if their number is even. */
double median (std::vector<double>);

} // namespace recordings
