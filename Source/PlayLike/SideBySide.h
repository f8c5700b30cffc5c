#pragma once

#include "Listening/Recording.h"

namespace playlike
{

/** One channel: a stroke of the recording, a pause of 0.7 s, the model's stroke, both at the same loudness (ITU-R BS.1770), the
    louder peak at -3 dB.

    @param from, to  s of the recording's stroke
    @param model     at a multiple of the recording's sample rate */
listening::Recording sideBySide (const listening::Recording&, double from, double to, const listening::Recording& model);

} // namespace playlike
