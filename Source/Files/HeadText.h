#pragma once

#include "Modal/heads/Head.h"

#include <string>
#include <string_view>

namespace files
{

/** What "coated" means unless an areal density is given: 30 g/m². A plain assumption; weigh a head to know better. */
inline constexpr double usualCoating = 0.03; // kg/m²

/** Reads a head from one line: thickness or areal density, then what is laid on it, in any order:

        10mil      2x7mil coated      10mil coating 25g/m2 dot 100mm 7mil      7.5mil ring 25mm 10mil      0.2653kg/m2
        single-10mil-coated

    A name in place of the film is one of headPresets().
    The areal density is that of the whole head away from dot and ring; the film's thickness follows from it.
    Throws modal::InputError on `field`.
*/
modal::HeadConstruction readHeadText (std::string_view text, const std::string& field);

/** The line that reads back as this head, a film of odd thickness to six digits of its areal density. */
std::string headText (const modal::HeadConstruction&);

/** Sets the film so that the whole head away from dot and ring weighs this much (kg/m²), with the plies and coating it has.
    Throws modal::InputError on `field` if the film would be too thin or too thick. */
void setArealDensity (modal::HeadConstruction&, double density, const std::string& field);

} // namespace files
