#pragma once

#include "Modal/DrumSpec.h"

#include <optional>
#include <string_view>
#include <vector>

namespace fitting
{

/** A remark of a fit besides its estimates: why there are none, what makes them doubtful, what stays unknown. The text is in
    Wording/. */
struct Finding
{
    /** The numbers that go with each kind are named beside it; kinds without any have none. */
    enum class Kind
    {
        noReadableTap,      ///< no tap on the bare head gave a note
        tooFewNotes,        ///< strikes have too few notes in common; how many
        tooFewModes,        ///< too few modes of a head were heard
        tooFewCoupledModes, ///< the same of both heads together; how many
        noTension,          ///< no tension of the head gives these notes
        noTuning,           ///< no tuning of both heads gives these notes
        harmonicNotes,      ///< the notes are harmonics of one pitch, as of a voice or a string
        unexplainedNotes,   ///< too many notes belong to no mode
        inconsistentNotes,  ///< notes miss their modes; by how many times what is likely
        otherMass,          ///< the notes need a head of another mass; its mass over the stated one
        otherDiameter,      ///< another diameter explains the notes better; that diameter and the stated one, m
        otherHeadRings,     ///< the notes are those of a drum with both heads ringing
        openBelow,          ///< the notes are those of a drum that is open below
        closedBelow,        ///< the notes are those of a drum that is closed below, though it is stated to be open
        twoTunings,         ///< two tunings explain the notes; batter, resonant, batter, resonant in N/m
        fastDecay,          ///< something damps the head; losses over those predicted
        slowDecay,          ///< the head rings for longer than it can; losses over those predicted
        oneKindOfMode,      ///< only one kind of mode was heard, so nothing confirms size and head
        massNotMeasured,    ///< the head's mass is as stated; correlation of its error with that of the tension
        tapNotesOnly,       ///< notes read by a person say nothing about the head's mass
        oneLugTapped,       ///< nothing is known about unevenness
        headUnknown,        ///< strikes do not determine this head; tension, its error and the yield tension in N/m
        vagueTapNote,       ///< too little of the resonant head was heard
        noModeOfItsOwn,     ///< the head's tension comes from its effect on the other head
        resonantHeldStill,  ///< strikes fit a drum with a silent resonant head as well
        linkedTensions,     ///< errors of both tensions go together; their correlation
        lugsNotLocated,     ///< strikes show how uneven a head is, not at which lugs
        unknownEvenness     ///< no pair of this head's modes was heard
    };

    enum class Severity
    {
        note,    ///< an estimate is limited
        warning, ///< all estimates may be wrong
        refusal  ///< there are no estimates
    };

    Kind kind = Kind::noReadableTap;
    Severity severity = Severity::note;
    std::vector<double> numbers{};
    std::optional<modal::HeadSide> head{}; ///< in a fit of the whole drum, if it is about one head

    bool operator== (const Finding&) const = default;
};

/** "other_diameter": the kind's name in files. */
std::string_view nameOf (Finding::Kind);

/** The kind of a name in a file; none if there is no such kind. */
std::optional<Finding::Kind> findingNamed (std::string_view);

/** How many numbers go with a kind. */
std::size_t numberCount (Finding::Kind);

/** "note", "warning" or "refusal". */
std::string_view nameOf (Finding::Severity);

/** The severity of a name in a file; none if there is no such severity. */
std::optional<Finding::Severity> severityNamed (std::string_view);

/** True if one of them is of the kind, or of the severity. */
bool contains (const std::vector<Finding>&, Finding::Kind) noexcept;
bool contains (const std::vector<Finding>&, Finding::Severity) noexcept;

/** The first of the most severe; null if there are none. */
const Finding* mostSevere (const std::vector<Finding>&);

} // namespace fitting
