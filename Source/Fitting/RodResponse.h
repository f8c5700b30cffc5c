#pragma once

#include "Modal/DrumSpec.h"
#include "Modal/heads/Head.h"
#include "Modal/hardware/RodThread.h"

#include <vector>

namespace fitting
{

/** How much tension a turn of the rods gives one head.

    If all rods turn by one turn, the hoop comes down by the thread's pitch. Part of that draws the film over the bearing edge,
   the rest bends the hoop, seats the collar and is held back by friction: the film's share, between 0 and 1. A thin disc whose
   rim is drawn out evenly by u has T = E h/(1−ν)·u/a (plane stress; e.g. Timoshenko & Goodier, Theory of Elasticity).

    The default share, a quarter within a factor of 2 either way, is common practice, no source; a calibration replaces it. */
struct RodResponse
{
    double filmShare = 0.25;
    double logError = 0.69; ///< standard deviation of ln filmShare

    /** Tension a turn of all rods together, N/m. */
    double tensionPerTurn (const modal::HeadConstruction&, double radius, const modal::RodThread&) const noexcept;
};

/** "A quarter turn on each rod moved it from F3 to G3": tap notes of one head before and after. */
struct RodObservation
{
    modal::HeadSide side = modal::HeadSide::batter;
    double turns = 0.25;    ///< of every rod, not 0, −4 to 4
    double fromNote = 0.0;  ///< Hz
    double toNote = 0.0;    ///< Hz
    double noteError = 5.0; ///< cents, of either note, one standard deviation
};

/** The response that a person's own observations of one head give, on top of the default as a prior. One move differs from the
   next by about a tenth, for friction and seating. Throws InputError for an observation that cannot be: no turn, a note that the
   head cannot have, or tension that falls as rods are tightened. */
RodResponse calibrated (const modal::DrumSpec&, modal::HeadSide, const modal::RodThread&, const std::vector<RodObservation>&);

/** Scatter of one move about the mean response, relative: friction at the edge, seating. Common practice, no source. */
inline constexpr double scatterOfMoves = 0.10;

/** What a rod each has to turn so that the tension beside the lugs changes as wanted, in turns.

    The mean follows the response; what differs from lug to lug is undone harmonic by harmonic with the film's own stiffness
   against being drawn over the edge unevenly (rimTension), by the same share. */
std::vector<double> turnsFor (const std::vector<double>& tensionChange, const modal::HeadConstruction&, double radius, const modal::RodThread&,
                              const RodResponse&);

} // namespace fitting
