#pragma once

#include "Arguments.h"

#include "Fitting/Drum.h"

namespace tool
{

/** The options of `fit` that make the model play like a recorded strike. */
OptionGroup playLikeOptions();

/** Does what `--play-like` asks for: sets muffling and wires from the strike, tensions from `--strikes` if that is given and else
   as the drum is tuned, writes both sounds and the drum file if they are asked for, and says what the recording shows. Throws
   modal::InputError. */
void playLike (const Arguments&, const fitting::DrumFitSetup&);

} // namespace tool
