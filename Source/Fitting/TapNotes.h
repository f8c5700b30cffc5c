#pragma once

#include "Head.h"

namespace fitting
{

/** One head from tap notes that a person read off, in Hz: one, or one beside each lug in order.

    The mean tension is that of the mean note; its error comes from the reading and from the head's mass, which notes of one kind
   cannot tell from tension. @param readingError  cents, one standard deviation of one note. @throws InputError for another number
   of notes, or a note that the head cannot have. */
HeadFit fitTapNotes (const HeadFitSetup&, const std::vector<double>& notes, double readingError);

} // namespace fitting
