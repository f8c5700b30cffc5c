#pragma once

#include "Modal/Tuning.h"

#include <atomic>
#include <functional>
#include <string>
#include <vector>

namespace sheets
{

/** The tunings to solve: every interval over every batter tap note. */
struct AtlasRequest
{
    modal::DrumSpec drum;
    double lowestNote = modal::Note{ 50 }.frequency();  ///< Hz, batter tap note; D3
    double highestNote = modal::Note{ 62 }.frequency(); ///< Hz; D4
    int notes = 25;                                     ///< evenly spaced on the logarithm, 1 to 500; two to a semitone here
    modal::ConcertPitch concertPitch{};                 ///< for note names
    double lowestInterval = 0.0;                        ///< semitones
    double highestInterval = 12.0;                      ///< semitones
    int intervals = 13;                                 ///< 1 to 500
    double highestFrequency = 700.0;                    ///< Hz, the highest mode to solve
    unsigned threads = 0;                               ///< 0: one per processor thread
};

/** The result of one tuning. */
struct AtlasPoint
{
    bool isPossible = false;   ///< false: a head would be slack or beyond its yield strength
    double batterNote = 0.0;   ///< Hz
    double interval = 0.0;     ///< semitones
    double drumNote = 0.0;     ///< Hz
    double sustain = 0.0;      ///< s, T60 of the drum note, wires off
    double wireResponse = 0.0; ///< m/s per N·s: how fast the resonant head moves under the wires in the first 20 ms after a light
                               ///< tap near the edge, root mean square, by the modes below AtlasRequest::highestFrequency
    double largestStress = 0.0; ///< the higher of both heads' stress over their yield strength, 0 to 1
};

struct Atlas
{
    AtlasRequest request;
    std::vector<double> notes, intervals;
    std::vector<AtlasPoint> points; ///< notes × intervals, the interval runs fastest
    bool isComplete = false;        ///< false if it was cancelled

    const AtlasPoint& at (std::size_t note, std::size_t interval) const { return points[note * intervals.size() + interval]; }
};

/** Solves all tunings on several threads.

    @param progress  called with the share done, 0 to 1, from the calling thread some ten times a second; may be empty
    @param cancel    set it to stop early
    @throws modal::InputError for a request out of range, a drum without a resonant head, or a range of which no tuning is
   possible */
Atlas makeAtlas (const AtlasRequest&, const std::function<void (double)>& progress, const std::atomic<bool>& cancel);

} // namespace sheets
