#pragma once

#include "Fitting/Drum.h"
#include "Modal/pitch/Note.h"

#include <string>

/** What a tech would say of a head or a drum that was heard: one sentence, lugs counted from 1. */
namespace wording
{

/** "up an eighth of a turn", to the nearest sixteenth; "up less than a sixteenth of a turn" below half of that. `turns` not 0. */
std::string turnInWords (double turns);

/** "73 %", "under 1 %", "over 99 %". @param probability  0 to 1 */
std::string percentText (double probability);

/** "Lug 3 is 24 cents flat: turn it up an eighth of a turn, then check lug 8 opposite." Turns are those of a typical drum. A fit
   that is not possible gives its reason. */
std::string answer (const fitting::HeadFit&, modal::HeadSide, const modal::DrumSpec&);

/** "The batter is at G#3 -8 and the resonant head at C#4 +5: a perfect fourth." Answers that are about as likely as the first are
    named with it. A fit that is not possible gives its reason. */
std::string answer (const fitting::DrumFit&, modal::ConcertPitch);

} // namespace wording
