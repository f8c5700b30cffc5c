#pragma once

#include "Files/DrumFile.h"
#include "PlayLike/PlayLike.h"

namespace reports
{

/** What a recording told of the model's numbers, in SI, and the rings of both by octave. */
files::Json likenessJson (const playlike::Likeness&);

/** The drum set so, with its tensions as the only tuning. */
files::DrumFile drumFileOf (const playlike::Likeness&);

} // namespace reports
