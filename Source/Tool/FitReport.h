#pragma once

#include "Fitting/Drum.h"
#include "Fitting/LeftOut.h"
#include "Modal/pitch/Note.h"

#include <string>

namespace tool
{

/** The fit of one head to its taps, as text. */
std::string textOf (const fitting::HeadFit&, modal::HeadSide, const modal::DrumSpec&, modal::ConcertPitch);

/** The fit of both heads to strikes, as text. @param modelError  cents, as set up */
std::string textOf (const fitting::DrumFit&, const modal::DrumSpec&, double modelError, modal::ConcertPitch);

/** By how much the fit with what a person added is narrower than the one without. */
std::string narrowedText (const fitting::DrumFit& without, const fitting::DrumFit& with);

/** How well strikes that were left out are predicted, beside two baselines. @param strikes  that were left out */
std::string textOf (const fitting::LeftOutCheck&, int strikes);

} // namespace tool
