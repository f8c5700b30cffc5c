#pragma once

namespace modal
{

/** A drum stick as the head feels it: the mass that its tip presents, and how the tip gives.

    A stick of mass M that swings about a place a third of its length from the butt has M·L²/9 about there and its tip 2L/3 away:
   it acts with M/4, which is 14 g for a stick of 56 g. Stiffness and exponent follow the Hertz form f = K·compression^exponent;
   values of this order are used for sticks on heads by Bilbao (JASA 131 (2012) 914), from memory. */
struct StickSpec
{
    double mass = 0.014;           ///< kg at the tip, 1 to 200 g
    double stiffness = 8.0e5;      ///< N/m^exponent of tip and film together, 1e3 to 1e9
    double exponent = 1.5;         ///< 1 to 4; 1.5 is Hertz
    double loss = 0.25;            ///< s/m, Hunt-Crossley, 0 to 10
    double shaftMass = 0.045;      ///< kg that the shaft presents where it meets the hoop, 1 to 300 g
    double shaftStiffness = 3.0e7; ///< N/m^1.5 of wood on the hoop, 1e4 to 1e10
};

/** Throws InputError naming the first field that is out of range. */
void check (const StickSpec&);

} // namespace modal
