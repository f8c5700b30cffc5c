#pragma once

#include "Arguments.h"

#include "Files/DrumFile.h"
#include "Modal/Prediction.h"
#include "Modal/hardware/Fittings.h"
#include "Place/Place.h"

#include <optional>

namespace tool
{

/** A tuning on a drum: what every command works on. */
struct TunedDrum
{
    modal::DrumSpec drum;
    modal::Tuning tuning;
    modal::Fittings fittings;
    std::optional<files::MicrophoneSpecs> microphones; ///< of the drum's file
    std::optional<files::PatternSpec> pattern;         ///< of the drum's file
    std::optional<place::Place> place = std::nullopt; ///< where it is played and heard

    /** "Maple 14 x 5, Evening" from whichever names there are, or the drum's size. */
    std::string label() const;
};

/** The options that describe a drum, its tuning and its hardware, for all commands. */
const std::vector<OptionGroup>& tunedDrumOptions();

/** The one drum and tuning that the arguments ask for: a file or preset, or modal's default drum, changed by the options.
    Throws modal::InputError, also if there is no tuning. */
TunedDrum chooseOne (const Arguments&);

/** The tuning of that name, or of that number counted from 1. Throws modal::InputError on `field`. */
const modal::Tuning& findTuning (const std::vector<modal::Tuning>&, const std::string& wanted, const std::string& field);

/** The drum alone, whether or not there is a tuning. */
modal::DrumSpec chooseDrum (const Arguments&);

/** Another tuning of the drum that the arguments choose, by name or number, or two tap notes, batter and resonant: "A3 D4". Throws
    modal::InputError on `field`. */
modal::Tuning otherTuning (const Arguments&, const TunedDrum&, const std::string& wanted, const std::string& field);

/** The same as chooseOne(), but each tuning of each file where nothing picks one. */
std::vector<TunedDrum> chooseAll (const Arguments&);

} // namespace tool
