#pragma once

#include "Taps.h"

#include "Fitting/Head.h"

/** A walk round one head: a tap beside each lug, the other head held still. */
namespace listening
{

/** What a tap beside a lug (from 0) says. @param quiet  see quietestMoment() */
fitting::HeardTap heardTap (const Recording&, const Tap&, double quiet, int lug, bool hasPatch = false);

/** What is to be said about a tap that is called `name`: its troubles and whether it is left out, a sentence a line. */
std::string remarksOn (const Tap&, const std::string& name, bool isUsed);

/** What is heard in a recording of a whole walk: one tap a lug, lug 1 first, once round or several times; or one tap alone. What
    cannot be used is left out and said. */
struct RecordedLugCheck
{
    std::vector<fitting::HeardTap> taps;
    std::string remarks; ///< a sentence a line
};

/** @param field   for messages: what the recording is called
    @throws modal::InputError for a recording that cannot be, or one with another number of taps, which leaves open beside which
            lugs they were */
RecordedLugCheck hearLugCheck (const Recording&, int lugs, bool hasPatch, const std::string& field);

} // namespace listening
