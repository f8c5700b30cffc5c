#include "TunedDrum.h"

#include "Band.h"
#include "DrumOptions.h"
#include "HardwareOptions.h"
#include "PlaceOptions.h"
#include "TuningOptions.h"

#include "Files/NearestWord.h"
#include "Files/Presets.h"
#include "Files/TuningRequest.h"
#include "Modal/InputError.h"
#include "Reports/Label.h"

namespace tool
{

using namespace modal;
using namespace files;

namespace
{
/** The drum named by `--drum` or the first free word. */
std::optional<std::string> sourceOf (const Arguments& arguments)
{
    if (const auto drum = arguments.value ("drum"))
        return drum;

    return arguments.freeWords().empty() ? std::nullopt : std::optional (arguments.freeWords().front());
}

} // namespace

const Tuning& findTuning (const std::vector<Tuning>& tunings, const std::string& wanted, const std::string& field)
{
    std::vector<std::string> names;

    for (const auto& tuning : tunings)
    {
        if (tuning.name == wanted || std::to_string (names.size() + 1) == wanted)
            return tuning;

        names.push_back (tuning.name.empty() ? std::to_string (names.size() + 1) : '"' + tuning.name + '"');
    }

    throw InputError (field, '"' + wanted + '"',
                      names.empty() ? "nothing: the drum has no tunings"
                                    : listed (names) + ", or a number from 1 to " + std::to_string (names.size()));
}

namespace
{
TunedDrum changed (TunedDrum tuned, const Arguments& arguments, bool hasTuning)
{
    overrideDrum (arguments, tuned.drum);
    overrideFittings (arguments, tuned.fittings);
    overridePlace (arguments, tuned.place);
    overrideTuning (arguments, tuned.drum, tuned.tuning, hasTuning);
    return tuned;
}

/** @param takesAll  else only the first tuning, if none is asked for */
std::vector<TunedDrum> chooseFrom (const DrumFile& file, const Arguments& arguments, bool takesAll)
{
    const auto tuned = [&] (const Tuning& tuning) {
        return TunedDrum{ file.drum, tuning, { file.wires, file.hoop, file.stick }, file.microphones, file.pattern, file.place };
    };

    if (const auto wanted = arguments.value ("tuning"))
        return { changed (tuned (findTuning (file.tunings, *wanted, "--tuning")), arguments, true) };

    if (file.tunings.empty())
        return { changed (tuned ({}), arguments, false) };

    std::vector<TunedDrum> chosen;

    for (const auto& tuning : file.tunings)
        if (takesAll || chosen.empty())
            chosen.push_back (changed (tuned (tuning), arguments, true));

    return chosen;
}

std::vector<TunedDrum> choose (const Arguments& arguments, bool takesAll)
{
    auto sources = arguments.freeWords();

    if (const auto drum = arguments.value ("drum"))
    {
        if (! sources.empty())
            throw InputError ("--drum", '"' + *drum + '"', "a drum as a free word or with --drum, not both");

        sources.push_back (*drum);
    }

    if (sources.empty())
        return { changed ({}, arguments, false) };

    std::vector<TunedDrum> chosen;

    for (const auto& source : sources)
        for (auto& tuned : chooseFrom (openDrum (source, concertPitchAsked (arguments)), arguments, takesAll))
            chosen.push_back (std::move (tuned));

    return chosen;
}
} // namespace

const std::vector<OptionGroup>& tunedDrumOptions()
{
    static const std::vector<OptionGroup> groups{ drumOptions(), tuningOptions(), hardwareOptions(), modelOptions() };
    return groups;
}

std::string TunedDrum::label() const
{
    return reports::labelOf (drum, tuning);
}

std::vector<TunedDrum> chooseAll (const Arguments& arguments)
{
    return choose (arguments, true);
}

TunedDrum chooseOne (const Arguments& arguments)
{
    arguments.requireAtMost (1, "drum, a file or a preset");
    return choose (arguments, false).front();
}

Tuning otherTuning (const Arguments& arguments, const TunedDrum& tuned, const std::string& wanted, const std::string& field)
{
    const auto source = sourceOf (arguments);
    const auto tunings = source ? openDrum (*source, concertPitchAsked (arguments)).tunings : std::vector<Tuning>();

    for (const auto& tuning : tunings)
        if (tuning.name == wanted)
            return tuning;

    const auto blank = wanted.find (' ');

    if (blank == std::string::npos)
        return findTuning (tunings, wanted, field);

    Tuning tuning;
    tuning.name = wanted;
    tuning.concertPitch = tuned.tuning.concertPitch;
    tuning.target = ByTapNotes{ readNote (wanted.substr (0, blank), tuning.concertPitch, field),
                                readNote (wanted.substr (blank + 1), tuning.concertPitch, field) };
    return tuning;
}

DrumSpec chooseDrum (const Arguments& arguments)
{
    arguments.requireAtMost (1, "drum, a file or a preset");
    const auto source = sourceOf (arguments);
    auto drum = source ? openDrum (*source).drum : DrumSpec();
    overrideDrum (arguments, drum);
    return drum;
}

} // namespace tool
