#pragma once

#include "Arguments.h"

#include "Fitting/LeftOut.h"

#include <vector>

namespace tool
{

/** Writes the picture that `--picture` asks for, if it is given: for each check the partials of the strikes left out along the
   pitch, as high as they are loud, over the modes that the fit and the heads without air predict, each with the 40 cents on
   either side that count as explained. Throws modal::InputError for a file of another ending. */
void writeLeftOutPicture (const Arguments&, const std::vector<fitting::LeftOutCheck>&);

} // namespace tool
