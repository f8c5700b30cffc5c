#pragma once

#include "Fitting/Drum.h"

#include <vector>

namespace synthetic
{

/** The lines that listening gives of a random real drum, without its sound: fast enough for statistics. Its modes lie off the
    model's, decay faster or slower than predicted, are missed if they are faint, beside lines of the room. */
struct LineDrum
{
    modal::DrumSpec believed; ///< snare: 12 to 15 in, 4 to 8 in deep, 7 to 12 and 2.5 to 4 mil; tom: see Kind
    modal::Tensions tensions;
    std::vector<fitting::Line> lines;

    /** How its modes' errors are drawn. */
    enum class Errors
    {
        asAssumed,   ///< correlated as the fit assumes
        independent, ///< each by itself
        alongPitch   ///< a straight line over the octaves, and half by itself: a film that is stiff or a shell that gives
    };

    enum class Kind
    {
        snare,
        tom ///< 8 to 18 in, 0.6 to 0.9 of that deep, both heads 7 to 12 mil, batter an octave from 130 Hz up at 14 in, in
            ///< proportion
    };

    /** Depends on `seed` alone. @param modelError  cents, standard deviation of a mode's error
        @param signalToNoise  dB; sets which modes are heard and how well */
    LineDrum (unsigned seed, double modelError, double signalToNoise, Errors = Errors::asAssumed, Kind = Kind::snare);

    /** The same lines at other tensions: each mode off the model's by the same, read again with an error of its own. */
    std::vector<fitting::Line> linesAt (const modal::Tensions&) const;

    /** The same with a weight (kg, 20 mm across) at the centre of the batter head: from the solver with a patch there. */
    std::vector<fitting::Line> linesWithWeight (double mass) const;

private:
    /** Hz, by m: its modes that move the heads, ascending. */
    using Frequencies = std::vector<std::vector<double>>;

    /** The mode a line belongs to. */
    struct Source
    {
        int m = -1; ///< -1: none
        std::size_t place = 0;
        double ratio = 1.0; ///< line over the model's mode
    };

    std::vector<fitting::Line> linesOf (const Frequencies&) const;

    modal::DrumSpec built;
    std::vector<Source> sources; ///< of each line
};

} // namespace synthetic
