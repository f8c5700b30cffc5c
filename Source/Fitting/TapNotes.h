#pragma once

#include "Head.h"

namespace fitting
{

/** Fits one head to tap notes in Hz that a person read: one, or one beside each lug in order.

    The mean tension is that of the mean note; its error comes from the reading and from the head's mass, which tap notes
   alone do not determine. @param readingError  cents, one standard deviation of one note. @throws InputError for another number
   of notes, or a note that the head cannot have. */
HeadFit fitTapNotes (const HeadFitSetup&, const std::vector<double>& notes, double readingError);

} // namespace fitting
