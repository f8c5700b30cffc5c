#pragma once

#include "Arguments.h"

#include "Modal/Prediction.h"
#include "Modal/hardware/Fittings.h"

namespace tool
{

/** A tuning on a drum: what every command works on. */
struct TunedDrum
{
    modal::DrumSpec drum;
    modal::Tuning tuning;
    modal::Fittings fittings;

    /** "Maple 14 x 5, Evening" from whichever names there are, or the drum's size. */
    std::string label() const;
};

/** The options that describe a drum and a tuning, for all commands. */
const std::vector<OptionGroup>& drumOptions();

/** The one drum and tuning that the arguments ask for: a file or preset, or modal's default drum, changed by the options.
    Throws modal::InputError, also if there is no tuning. */
TunedDrum chooseOne (const Arguments&);

/** The drum alone, whether or not there is a tuning. */
modal::DrumSpec chooseDrum (const Arguments&);

/** The same as chooseOne(), but each tuning of each file where nothing picks one. */
std::vector<TunedDrum> chooseAll (const Arguments&);

/** "14 x 5.5 in". */
std::string sizeText (const modal::DrumSpec&);

/** `--concert-pitch`. */
std::optional<modal::ConcertPitch> concertPitchAsked (const Arguments&);

/** `--highest`, Hz, and what it may be. */
std::optional<double> highestAsked (const Arguments&);
inline constexpr double leastHighest = 50.0, mostHighest = 20.0e3;

/** Where an option of output points: nullopt without it, "-" for standard output. Throws modal::InputError where that would
   overwrite a drum file, as `--json drum.json` does when the drum's name was meant, and where a file's name does not end in one
   of `endings`, if there are any. */
std::optional<std::string> outputTarget (const Arguments&, const std::string& option,
                                         const std::vector<std::string>& endings = {});

} // namespace tool
