#pragma once

#include "Modal/DrumSpec.h"
#include "Modal/hardware/RodThread.h"
#include "Modal/heads/Head.h"

#include <vector>

namespace fitting
{

/** How much tension one turn of all rods gives a head.

    If all rods turn by one turn, the hoop comes down by the thread's pitch. A share of that stretches the head over the bearing
   edge; the rest bends the hoop, seats the collar and is lost to friction. A thin disc whose
   rim is drawn out evenly by u has T = E h/(1−ν)·u/a (plane stress; e.g. Timoshenko & Goodier, Theory of Elasticity).

    What does not stretch the head rolls the hoop and shapes the collar: a compliance in series with the head's. Observations
    replace the usual share. */
struct RodResponse
{
    double headShare = 0.25; ///< of a turn's way that stretches the head, 0 to 1
    double logError = 0.69;  ///< standard deviation of ln headShare

    /** N/m per turn of all rods. */
    double tensionPerTurn (const modal::HeadConstruction&, double radius, const modal::RodThread&) const noexcept;
};

/** What a turn usually does to a head. A quarter of the way stretches a 10 mil film on a 14 inch drum, within a factor of 2 either
    way (common practice, no source). Hoop, collar and rods give way by the same under the same tension whatever the film, so that
    a thinner film, which gives way more, takes a larger share. See README.md. */
RodResponse usualResponse (const modal::HeadConstruction&, double radius) noexcept;

/** "A quarter turn on each rod moved it from F3 to G3": tap notes of one head before and after. */
struct RodObservation
{
    modal::HeadSide side = modal::HeadSide::batter;
    double turns = 0.25;    ///< of every rod, not 0, −4 to 4
    double fromNote = 0.0;  ///< Hz
    double toNote = 0.0;    ///< Hz
    double noteError = 5.0; ///< cents, of either note, one standard deviation
};

/** The response estimated from observations of one head, with usualResponse() as the prior and scatterOfMoves as the error of each.
   Throws InputError for an impossible observation: no turn, a note that the head cannot have, or a tension that falls while rods
   are tightened. */
RodResponse calibrated (const modal::DrumSpec&, modal::HeadSide, const modal::RodThread&, const std::vector<RodObservation>&);

/** Relative standard deviation of one move about the mean response, from friction and seating. Common practice, no source. */
inline constexpr double scatterOfMoves = 0.10;

/** Turns of each rod that change the tension beside the lugs as wanted.

    The mean follows the response. Differences between lugs follow, harmonic by harmonic, from the head's stiffness against uneven
   stretching (rimTension), with the same share. @param tensionChange  N/m, by lug */
std::vector<double> turnsFor (const std::vector<double>& tensionChange, const modal::HeadConstruction&, double radius,
                              const modal::RodThread&, const RodResponse&);

/** The turn of one rod that changes the tension beside its lug over the head's mean by `tensionChange`, N/m, while the other rods
    stay. @param lugs  4 to 16 */
double turnOfOneRod (double tensionChange, int lugs, const modal::HeadConstruction&, double radius, const modal::RodThread&,
                     const RodResponse&) noexcept;

/** The turn of one rod that moves its lug by so many cents against the head's tap note, by the usual response. */
double turnsForLugCents (double cents, const modal::DrumSpec&, modal::HeadSide, double tension);

/** A usual error and the turns that take it away; turns are negative for what is too high. */
struct Correction
{
    double cents = 0.0;   ///< heard over what is wanted
    double oneRod = 0.0;  ///< turns of the rod of one lug that is off
    double allRods = 0.0; ///< turns of every rod if the whole head is off
};

/** Corrections for 100, 50, 25 and 10 cents too low and too high, in ascending order of cents. @param tension  N/m, of the head in
    tune */
std::vector<Correction> usualCorrections (const modal::DrumSpec&, modal::HeadSide, double tension, const modal::RodThread&,
                                          const RodResponse&);

} // namespace fitting
