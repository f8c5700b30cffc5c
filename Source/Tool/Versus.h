#pragma once

#include "TunedDrum.h"

namespace tool
{

/** Arguments with "vs" between the tunings: what stands before the first "vs" holds for all, and what stands after a "vs" changes
   one. */
class VersusArguments
{
public:
    /** Throws modal::InputError as Arguments does. */
    VersusArguments (const std::vector<std::string>& words, const std::vector<OptionGroup>&);

    bool hasVersus() const noexcept { return parts.size() > 1; }

    /** The options of all parts together. Options of output hold for all tunings, so that they may stand anywhere. */
    const Arguments& common() const noexcept { return all; }

    /** The tuning of each part. Throws modal::InputError. */
    std::vector<TunedDrum> tunings() const;

private:
    std::vector<Arguments> parts;
    Arguments all;
};

} // namespace tool
