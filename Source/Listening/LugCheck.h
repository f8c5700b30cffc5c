#pragma once

#include "Taps.h"

#include "Fitting/Head.h"

#include <string>

/** A lug check of one head: a tap beside each lug, the other head held still. */
namespace listening
{

/** What a tap beside a lug (from 0) gives a fit. @param quiet  see quietestMoment() */
fitting::HeardTap heardTap (const Recording&, const Tap&, double quiet, int lug, bool hasPatch = false);

/** A recorded lug check: one tap per lug, lug 1 first, once or several times around; or one tap alone. */
struct RecordedLugCheck
{
    std::vector<fitting::HeardTap> taps; ///< those that can be used
    std::vector<double> starts{};        ///< s, when each of `taps` begins in the recording

    struct TroubledTap
    {
        int number = 1; ///< in the recording, from 1
        std::vector<Trouble> troubles{};
        bool isUsed = false;
    };

    std::vector<TroubledTap> troubled{}; ///< taps with troubles and taps left out
};

/** @param field   for messages: what the recording is called
    @throws modal::InputError for a recording that cannot be used, or one with another number of taps, which does not show beside
            which lugs they were */
RecordedLugCheck hearLugCheck (const Recording&, int lugs, bool hasPatch, const std::string& field);

} // namespace listening
