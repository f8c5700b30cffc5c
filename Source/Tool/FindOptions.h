#pragma once

#include "Arguments.h"

#include "Finding/Find.h"
#include "Modal/hardware/Fittings.h"

namespace tool
{

/** What `find` is asked for. */
struct FindRequest
{
    std::vector<std::string> drumWords;  ///< that name the same drum, air and hardware to any other command
    std::vector<std::string> placeWords; ///< and its place, to those that predict or play
    std::string label;                   ///< of the drum
    modal::DrumSpec drum;
    finding::Playing playing;
    modal::ConcertPitch concertPitch;
    std::optional<modal::Tuning> presentTuning; ///< none: moves and plans have nothing to start from
    std::vector<finding::Wish> wishes;
    double batterStrength = modal::prudentYieldShare; ///< of yield, which the search stays below
    double resonantStrength = modal::prudentYieldShare;
};

/** Options of `find`: wishes, song, player, present tuning. */
std::vector<OptionGroup> findOptions();

/** Throws modal::InputError. */
FindRequest readFindRequest (const Arguments&);

} // namespace tool
