#pragma once

#include "DrumRequest.h"

#include "Fitting/Drum.h"
#include "Fitting/Plan.h"

namespace plugin
{

/** Sets one head's tap note and lugs to the measured ones; the other head keeps its note.

    @throws modal::InputError naming the parameter that cannot hold a measured value; `values` is then unchanged */
void setHeard (Values& values, modal::HeadSide, const fitting::HeadFit&);

/** Sets diameter and both heads' tap notes to those of an answer; a head that is not known keeps its note. Lugs stay, since strikes
    do not tell them apart.

    @throws modal::InputError naming the parameter that cannot hold a measured value; `values` is then unchanged */
void setHeard (Values& values, const fitting::DrumAnswer&);

/** What a person adds to strikes. */
struct KnownOfDrum
{
    std::optional<double> batterNote{}, resonantNote{}; ///< Hz: tap notes as read, the other head held still
    bool isSizeUnsure = false;                          ///< the drum may be an inch larger or smaller
    bool areHeadsUnsure = false;                        ///< they may be heavier or lighter than those set

    bool operator== (const KnownOfDrum&) const = default;
};

/** Mean turns of a head's rods, positive tightens. */
struct RodTurns
{
    std::optional<double> batter{}, resonant{}; ///< none: that head was not heard
};

/** Turns from the heads as they were heard to the tuning asked for, by what a turn does to a typical drum (fitting::makePlan).
    @throws modal::InputError if a head cannot reach it */
RodTurns rodTurnsTo (const DrumRequest& wanted, const std::optional<fitting::HeadAsIs>& batter,
                     const std::optional<fitting::HeadAsIs>& resonant);

/** Strikes of the drum that is set, with nothing on its heads. */
fitting::DrumFitSetup strikesOf (modal::DrumSpec, const KnownOfDrum&);

} // namespace plugin
