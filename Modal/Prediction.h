#pragma once

#include "Tuning.h"

#include <vector>

namespace modal
{

/** The figures of one head. */
struct HeadPrediction
{
    double tension = 0.0;         ///< N/m
    double tapNote = 0.0;         ///< Hz
    double stress = 0.0;          ///< Pa in the load-bearing film
    double yieldShare = 0.0;      ///< stress over the film's yield stress, 0 to 1
    double forcePerLug = 0.0;     ///< N along each rod: T·2πa over the number of lugs, no friction at the edge
    double semitoneTension = 0.0; ///< relative tension change that raises the tap note by one semitone (0.12 in vacuo)
};

/** Two modes of one kind, the lower first, as indices into `modes`; -1 where there is none in the band. */
struct ModePair
{
    int lower = -1;
    int upper = -1;
};

/** The prediction for a tuned drum, without playing it. */
struct Prediction
{
    DrumSpec drum;
    Tuning tuning;
    HeadPrediction batter;
    HeadPrediction resonant;                  ///< zeros without a resonant head
    Interval interval;                        ///< resonant tap note over batter tap note; 0 without a resonant head
    double drumNote = 0.0;                    ///< Hz
    double sustain = 0.0;                     ///< T60 of the drum note, s
    double drumNotePerBatterSemitone = 0.0;   ///< cents the drum note moves when the batter's tap note rises a semitone
    double drumNotePerResonantSemitone = 0.0; ///< cents
    std::vector<Mode> modes;                  ///< by frequency; one entry for the pair of an even drum, two where it is split
    bool isUniform = true;         ///< even lugs, muffling the same all around: every mode with m > 0 stands for two equal ones
    ModePair breathing;            ///< the lowest two (0,n) modes that move the heads
    ModePair rocking;              ///< the lowest two (1,n) modes
    double highestFrequency = 0.0; ///< Hz, up to where modes are listed
};

/** Solves a tuning on a drum and predicts its notes, tensions and modes. */
Prediction predict (const DrumSpec&, const Tuning&, const SolveOptions& = {});

/** The same for many tunings of one drum: both of that drum. */
Prediction predict (const DrumTuner&, const DrumSolver&, const Tuning&);

} // namespace modal
