#include "Tuning.h"

#include "DrumNumbers.h"
#include "Modal/pitch/NoteSearch.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace modal
{

namespace
{

Tensions tensionsForNotes (const DrumSpec& drum, const ByTapNotes& notes)
{
    Tensions tensions;
    tensions.batter = tensionForTapNote (drum, HeadSide::batter, notes.batter);

    if (drum.hasResonantHead())
        tensions.resonant = tensionForTapNote (drum, HeadSide::resonant, notes.resonant);

    return tensions;
}

Tensions checkedTensions (const DrumSpec& drum, const ByTension& tensions)
{
    requireInRange (tensions.batter, tensionRange (drum.batter), "batter tension");

    if (drum.hasResonantHead())
        requireInRange (tensions.resonant, tensionRange (drum.resonant), "resonant tension");

    return tensions;
}

Tensions tensionsForDrumNote (const DrumSpec& drum, const ByDrumNote& wanted)
{
    requireInRange (wanted.drumNote, noteRange, "drum note");
    checkNumbers (wanted.interval, "");

    const double ratio = wanted.interval.ratio();
    auto batterNotes = tapNoteRange (drum, HeadSide::batter);

    if (drum.hasResonantHead())
    {
        const auto resonantNotes = tapNoteRange (drum, HeadSide::resonant);
        batterNotes = { std::max (batterNotes.lowest, resonantNotes.lowest / ratio),
                        std::min (batterNotes.highest, resonantNotes.highest / ratio) };

        if (batterNotes.lowest > batterNotes.highest)
            throw InputError ("interval", asText (wanted.interval.semitones) + " semitones",
                              "one that both heads can have below yield");
    }

    const auto noteAt = [&] (double batterNote)
    {
        Tensions tensions{ tensionNearTapNote (drum, HeadSide::batter, batterNote) };

        if (drum.hasResonantHead())
            tensions.resonant = tensionNearTapNote (drum, HeadSide::resonant, ratio * batterNote);

        const double note = drumNote (solve (drum, tensions));
        return note > 0.0 ? note : std::numeric_limits<double>::infinity();
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
    return tensionsForNotes (drum, { batterNote, ratio * batterNote });
}

Tensions tensionsForDrumNoteAndHead (const DrumSpec& drum, const ByDrumNoteAndHead& wanted)
{
    requireInRange (wanted.drumNote, noteRange, "drum note");

    if (! drum.hasResonantHead())
        throw InputError::fault ("drum note", "cannot be tuned with one head held on a drum with one head", "the drum note alone");

    const bool holdsBatter = wanted.held == HeadSide::batter;
    const auto free = holdsBatter ? HeadSide::resonant : HeadSide::batter;
    const std::string freeName = holdsBatter ? "resonant" : "batter", heldName = holdsBatter ? "batter" : "resonant";
    const double heldTension = tensionForTapNote (drum, wanted.held, wanted.heldNote);
    const auto tensionsWith = [&] (double freeTension)
    { return holdsBatter ? Tensions{ heldTension, freeTension } : Tensions{ freeTension, heldTension }; };

    const auto noteAt = [&] (double freeNote)
    {
        const double note = drumNote (solve (drum, tensionsWith (tensionNearTapNote (drum, free, freeNote))));
        return note > 0.0 ? note : std::numeric_limits<double>::infinity();
    };

    // The drum note moves by about half of what one head moves. At the very ends rounding must not lead beyond them.
    const auto notes = tapNoteRange (drum, free);
    const NoteSearch search{ .noteAt = noteAt,
                             .lowest = notes.lowest * (1.0 + 1.0e-9),
                             .highest = notes.highest * (1.0 - 1.0e-9),
                             .first = std::clamp (1.5 * wanted.drumNote, 1.01 * notes.lowest, 0.9 * notes.highest),
                             .slope = 0.5,
                             .tolerance = 1.0e-9 };
    const std::string held = " while the " + heldName + " head stays at " + asText (wanted.heldNote, 5) + " Hz";
    const double freeNote = settingFor (wanted.drumNote, search, "drum note", "below, the " + freeName + " head is slack" + held,
                                        "above, the " + freeName + " head would yield" + held,
                                        "between them, the lowest mode is an air mode");
    return tensionsWith (tensionForTapNote (drum, free, freeNote));
}

Tensions meanTensionsFor (const DrumSpec& drum, const Tuning& tuning)
{
    if (const auto* notes = std::get_if<ByTapNotes> (&tuning.target))
        return tensionsForNotes (drum, *notes);

    if (const auto* tensions = std::get_if<ByTension> (&tuning.target))
        return checkedTensions (drum, *tensions);

    if (const auto* withHead = std::get_if<ByDrumNoteAndHead> (&tuning.target))
        return tensionsForDrumNoteAndHead (drum, *withHead);

    return tensionsForDrumNote (drum, std::get<ByDrumNote> (tuning.target));
}

/** Cents beside each lug as tension over the mean, minus 1, by the head's own relation of tap note and tension. */
std::vector<double> lugDeviations (const DrumSpec& drum, HeadSide side, double tension, const std::vector<double>& cents)
{
    const std::string head = side == HeadSide::batter ? "batter" : "resonant";

    if (! cents.empty() && static_cast<int> (cents.size()) != drum.lugs)
        throw InputError (head + " lug cents", std::to_string (cents.size()) + " values",
                          "one for each of the " + std::to_string (drum.lugs) + " lugs");

    const double perSemitone = cents.empty() ? 0.0 : semitoneTension (drum, side, tension);
    std::vector<double> deviations;

    for (const double c : cents)
    {
        requireInRange (c, lugCentsRange, head + " lug cents");
        deviations.push_back (std::pow (1.0 + perSemitone, c / 100.0) - 1.0);
    }

    return deviations;
}

} // namespace

Tensions tensionsFor (const DrumSpec& drum, const Tuning& tuning)
{
    check (drum);
    check (tuning.concertPitch);
    auto tensions = meanTensionsFor (drum, tuning);
    tensions.batterLugs = lugDeviations (drum, HeadSide::batter, tensions.batter, tuning.lugs.batter);

    if (drum.hasResonantHead())
        tensions.resonantLugs = lugDeviations (drum, HeadSide::resonant, tensions.resonant, tuning.lugs.resonant);

    return tensions;
}

double drumNote (const DrumModes& drum)
{
    for (const auto& mode : drum.modes)
        if (! mode.isAirMode)
            return mode.frequency;

    return 0.0;
}

} // namespace modal
