#include "Tuning.h"

#include "DrumNumbers.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace modal
{

namespace
{

std::optional<HeadNotes> resonantNotes (const DrumSpec& drum)
{
    return drum.hasResonantHead() ? std::optional (HeadNotes (drum, HeadSide::resonant)) : std::nullopt;
}

/** For searches: a drum note above the band counts as very high. */
double orInfinity (double note)
{
    return note > 0.0 ? note : std::numeric_limits<double>::infinity();
}

} // namespace

DrumTuner::DrumTuner (const DrumSpec& spec) : solver (spec), batter (spec, HeadSide::batter), resonant (resonantNotes (spec)) {}

Tensions DrumTuner::at (const ByTapNotes& wanted) const
{
    Tensions tensions;
    tensions.batter = batter.tensionFor (wanted.batter);

    if (resonant)
        tensions.resonant = resonant->tensionFor (wanted.resonant);

    return tensions;
}

Tensions DrumTuner::at (const ByTension& tensions) const
{
    requireInRange (tensions.batter, tensionRange (drum().batter), "batter tension");

    if (resonant)
        requireInRange (tensions.resonant, tensionRange (drum().resonant), "resonant tension");

    return tensions;
}

Tensions DrumTuner::at (const ByDrumNote& wanted) const
{
    requireInRange (wanted.drumNote, noteRange, "drum note");
    checkNumbers (wanted.interval, "");

    const double ratio = wanted.interval.ratio();
    auto batterNotes = batter.range();

    if (resonant)
    {
        batterNotes = { std::max (batterNotes.lowest, resonant->range().lowest / ratio),
                        std::min (batterNotes.highest, resonant->range().highest / ratio) };

        if (batterNotes.lowest > batterNotes.highest)
            throw InputError ("interval", asText (wanted.interval.semitones) + " semitones",
                              "one that both heads can have below yield");
    }

    const auto noteAt = [&] (double batterNote)
    {
        Tensions tensions{ batter.tensionNear (batterNote) };

        if (resonant)
            tensions.resonant = resonant->tensionNear (ratio * batterNote);

        return orInfinity (drumNote (tensions));
    };

    // The drum note moves nearly in step with the heads' notes. At the very ends rounding must not lead beyond them.
    const NoteSearch search{ .noteAt = noteAt,
                             .lowest = batterNotes.lowest * (1.0 + 1.0e-9),
                             .highest = batterNotes.highest * (1.0 - 1.0e-9),
                             .first = 1.5 * wanted.drumNote,
                             .slope = 1.0,
                             .tolerance = 1.0e-9 };
    const double batterNote = settingFor (wanted.drumNote, search, "drum note", "below, a head is slack",
                                          "above, a head would yield", "between them, the lowest mode is an air mode");
    return at (ByTapNotes{ batterNote, ratio * batterNote });
}

Tensions DrumTuner::at (const ByDrumNoteAndHead& wanted) const
{
    requireInRange (wanted.drumNote, noteRange, "drum note");

    if (! resonant)
        throw InputError::fault ("drum note", "cannot be tuned with one head held on a drum with one head",
                                 "the drum note alone");

    const bool holdsBatter = wanted.held == HeadSide::batter;
    const auto& free = notes (holdsBatter ? HeadSide::resonant : HeadSide::batter);
    const std::string freeName = holdsBatter ? "resonant" : "batter", heldName = holdsBatter ? "batter" : "resonant";
    const double heldTension = notes (wanted.held).tensionFor (wanted.heldNote);
    const auto tensionsWith = [&] (double freeTension) {
        return holdsBatter ? Tensions{ heldTension, freeTension } : Tensions{ freeTension, heldTension };
    };

    const auto noteAt = [&] (double freeNote) { return orInfinity (drumNote (tensionsWith (free.tensionNear (freeNote)))); };

    // The drum note moves by about half of what one head moves. At the very ends rounding must not lead beyond them.
    const auto range = free.range();
    const NoteSearch search{ .noteAt = noteAt,
                             .lowest = range.lowest * (1.0 + 1.0e-9),
                             .highest = range.highest * (1.0 - 1.0e-9),
                             .first = std::clamp (1.5 * wanted.drumNote, 1.01 * range.lowest, 0.9 * range.highest),
                             .slope = 0.5,
                             .tolerance = 1.0e-9 };
    const std::string held = " while the " + heldName + " head stays at " + asText (wanted.heldNote, 5) + " Hz";
    const double freeNote =
        settingFor (wanted.drumNote, search, "drum note", "below, the " + freeName + " head is slack" + held,
                    "above, the " + freeName + " head would yield" + held, "between them, the lowest mode is an air mode");
    return tensionsWith (free.tensionFor (freeNote));
}

/** Cents beside each lug as tension over the mean, minus 1, by the head's own relation of tap note and tension. */
std::vector<double> DrumTuner::lugDeviations (HeadSide side, double tension, const std::vector<double>& cents) const
{
    const std::string head = side == HeadSide::batter ? "batter" : "resonant";

    if (! cents.empty() && static_cast<int> (cents.size()) != drum().lugs)
        throw InputError (head + " lug cents", std::to_string (cents.size()) + " values",
                          "one for each of the " + std::to_string (drum().lugs) + " lugs");

    const double perSemitone = cents.empty() ? 0.0 : notes (side).semitoneTension (tension);
    std::vector<double> deviations;

    for (const double c : cents)
    {
        requireInRange (c, lugCentsRange, head + " lug cents");
        deviations.push_back (std::pow (1.0 + perSemitone, c / 100.0) - 1.0);
    }

    return deviations;
}

Tensions DrumTuner::tensionsFor (const Tuning& tuning) const
{
    check (tuning.concertPitch);
    auto tensions = std::visit ([this] (const auto& target) { return at (target); }, tuning.target);
    tensions.batterLugs = lugDeviations (HeadSide::batter, tensions.batter, tuning.lugs.batter);

    if (resonant)
        tensions.resonantLugs = lugDeviations (HeadSide::resonant, tensions.resonant, tuning.lugs.resonant);

    return tensions;
}

Tensions tensionsFor (const DrumSpec& drum, const Tuning& tuning)
{
    return DrumTuner (drum).tensionsFor (tuning);
}

double drumNote (const DrumModes& drum)
{
    for (const auto& mode : drum.modes)
        if (! mode.isAirMode)
            return mode.frequency;

    return 0.0;
}

} // namespace modal
