#pragma once

#include "Modal/hardware/Wires.h"

#include <vector>

namespace engine
{

/** The model strands: fewer than the real set, each representing several with matching mass, tension and stiffness, to limit the
   cost. Laid symmetrically: strand `pair` lies at +y and at -y, point `i` at +x and at -x.

    The n strands of a group push together on slow waves of the head. Fast waves they strike each at its own time, so that their
   forces add up by their power: to √n times that of one. Let f be the force of the model strand, n times that of one. A wave
   that is pushed with f/√n, and moves the model strand by 1/√n of what it moves the head, has that power; the strands then meet
   the head as n contacts that do not feel one another; and no energy is created, since both factors are the same.

    Between both limits the power is 1/n + (1 - 1/n)·exp(-(ωτ)²), which is exact for equal forces at random times with a standard
   deviation of τ. Here that is how far the strands' half swings off the head differ, by their tensions. */
class StrandGeometry
{
public:
    /** @param strands   model strands, even, 2 to 20
        @param points    contact points a strand, even, 4 to 32
        @param modes     modal strings a strand, 1 to points */
    StrandGeometry (const modal::WireSpec&, double headDiameter, int strands, int points, int modes);

    int pairs() const noexcept { return static_cast<int> (y.size()); }
    int halfPoints() const noexcept { return static_cast<int> (x.size()); }
    int modeCount() const noexcept { return modeLimit; }

    double span() const noexcept { return length; }                                   ///< m, between the end plates
    double mass() const noexcept { return strandMass; }                               ///< kg, of a model strand
    double pull (int pair) const { return tension[static_cast<std::size_t> (pair)]; } ///< N, of a model strand

    double pointX (int i) const { return x[static_cast<std::size_t> (i)]; }        ///< m, positive
    double strandY (int pair) const { return y[static_cast<std::size_t> (pair)]; } ///< m, positive

    /** Shape of mode n (from 1) at the point +x, 1/√kg, between end plates at rest. Odd n are even in x. */
    double shape (int n, int point) const;
    double frequency (int n, int pair) const;           ///< Hz, between end plates at rest
    double groupSize() const noexcept { return group; } ///< n above, 1 or more
    /** What a model strand and a wave of the head of this frequency (Hz) meet by: 1 for slow waves, 1/√n for fast ones. */
    double groupShare (double frequency) const;
    double decay (int n, int pair) const; ///< 1/s
    /** How much deeper than the mean of all a strand is pressed into the head, m. */
    double extraPress (int pair, bool isAtNegativeY) const;
    /** Weight of gravity on mode n, N/√kg: modal force, negative (downwards); 0 for even n. */
    double weight (int n) const;

private:
    modal::WireSpec spec;
    double length, group, strandMass, bending;
    int modeLimit;
    std::vector<double> x, y, tension;
};

} // namespace engine
