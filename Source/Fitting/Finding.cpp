#include "Finding.h"

#include <algorithm>
#include <array>

namespace fitting
{
namespace
{

/** In the order of Finding::Kind. */
constexpr std::array<std::string_view, 28> kinds{
    "no_readable_tap", "too_few_notes", "too_few_modes", "too_few_coupled_modes",
    "no_tension", "no_tuning", "harmonic_notes", "unexplained_notes",
    "inconsistent_notes", "other_mass", "other_diameter", "other_head_rings",
    "open_below", "closed_below", "two_tunings", "fast_decay",
    "slow_decay", "one_kind_of_mode", "mass_not_measured", "tap_notes_only",
    "one_lug_tapped", "head_unknown", "vague_tap_note", "no_mode_of_its_own",
    "resonant_held_still", "linked_tensions", "lugs_not_located", "unknown_evenness",
};
static_assert (kinds.size() == static_cast<std::size_t> (Finding::Kind::unknownEvenness) + 1);

constexpr std::array<std::string_view, 3> severities{ "note", "warning", "refusal" };

template <typename Value, std::size_t count>
std::optional<Value> valueNamed (const std::array<std::string_view, count>& names, std::string_view name)
{
    const auto found = std::find (names.begin(), names.end(), name);
    return found == names.end() ? std::nullopt : std::optional (static_cast<Value> (found - names.begin()));
}

} // namespace

std::string_view nameOf (Finding::Kind kind)
{
    return kinds[static_cast<std::size_t> (kind)];
}

std::optional<Finding::Kind> findingNamed (std::string_view name)
{
    return valueNamed<Finding::Kind> (kinds, name);
}

std::size_t numberCount (Finding::Kind kind)
{
    switch (kind)
    {
    case Finding::Kind::twoTunings:
        return 4;
    case Finding::Kind::headUnknown:
        return 3;
    case Finding::Kind::otherDiameter:
        return 2;
    case Finding::Kind::tooFewNotes:
    case Finding::Kind::tooFewCoupledModes:
    case Finding::Kind::inconsistentNotes:
    case Finding::Kind::otherMass:
    case Finding::Kind::fastDecay:
    case Finding::Kind::slowDecay:
    case Finding::Kind::massNotMeasured:
    case Finding::Kind::linkedTensions:
        return 1;
    default:
        return 0;
    }
}

std::string_view nameOf (Finding::Severity severity)
{
    return severities[static_cast<std::size_t> (severity)];
}

std::optional<Finding::Severity> severityNamed (std::string_view name)
{
    return valueNamed<Finding::Severity> (severities, name);
}

bool contains (const std::vector<Finding>& findings, Finding::Severity severity) noexcept
{
    return std::any_of (findings.begin(), findings.end(),
                        [severity] (const Finding& finding) { return finding.severity == severity; });
}

bool contains (const std::vector<Finding>& findings, Finding::Kind kind) noexcept
{
    return std::any_of (findings.begin(), findings.end(), [kind] (const Finding& finding) { return finding.kind == kind; });
}

const Finding* mostSevere (const std::vector<Finding>& findings)
{
    const auto most = std::max_element (findings.begin(), findings.end(),
                                        [] (const Finding& a, const Finding& b) { return a.severity < b.severity; });
    return most == findings.end() ? nullptr : &*most;
}

} // namespace fitting
