#pragma once

#include "ClipPlayer.h"
#include "Values.h"

#include "Score/Score.h"

namespace plugin
{

/** Plays the same strokes with each of these settings, as the plugin would, in the place if it is on, and brings the takes to one
    loudness (ITU-R BS.1770): their mean, or less if one would go above full scale. Each ends once it has died away.

    @param strokes     times in s
    @param sampleRate  Hz, 22 050 to 192 000
    @param share       how much is done, 0 to 1
    @param cancel      ends the work when it becomes true; the result is then empty
    @throws modal::InputError for settings that describe no drum or a tuning that it cannot reach */
std::vector<std::shared_ptr<const Clip>> comparedTakes (const std::vector<Values>&, const score::Score& strokes,
                                                        double sampleRate, std::atomic<double>& share,
                                                        const std::atomic<bool>& cancel);

} // namespace plugin
