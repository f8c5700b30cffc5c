#pragma once

#include "Finding.h"
#include "Modal/Solve.h"
#include "Partial.h"
#include "common/Discrepancy.h"

#include <optional>
#include <vector>

/** The state of one head from taps beside its lugs: tension, uneven lugs, mass and losses, each with an uncertainty. */
namespace fitting
{

/** A value and one standard deviation. */
struct Estimate
{
    double value = 0.0;
    double error = 0.0;
};

/** One tap beside a lug, with the microphone above it. */
struct HeardTap
{
    int lug = 0; ///< counted from 0 in the order of Tuning::lugs; lug 0 is at angle 0, the others clockwise seen from above
    double inset = 25.0e-3; ///< m from the bearing edge
    bool hasPatch = false;  ///< with HeadFitSetup::patch on the head
    std::vector<Partial> partials{};
};

/** Prior knowledge of the head. */
struct HeadFitSetup
{
    modal::DrumSpec drum;
    modal::HeadSide side = modal::HeadSide::batter;
    double massTolerance = 0.03; ///< standard deviation of the head's mass about its construction's, relative; 0 to 0.2
    /** Cents, standard deviation of a kind of mode about the model's, the same in all taps, see modelErrorRange. It blurs the
       tension, but neither the tap note nor the differences between lugs. */
    double modelError = usualModelError;
    double decayError = usualDecayError; ///< standard deviation of ln (decay heard over decay predicted), see decayErrorRange
    double tapError = 1.0;               ///< cents, standard deviation of one tap before its scatter is known; 0.05 to 20
    std::optional<modal::MufflingItem> patch{}; ///< a known weight on the head for some of the taps
    std::optional<double> startTension{};       ///< N/m, the tension known to half a semitone; without it all tensions are
                                                ///< searched, which takes longer
};

/** How well the taps are explained if one lug alone is off. */
struct LugSuspicion
{
    int lug = 0;              ///< from 0
    Estimate cents{};         ///< that lug over the others
    double probability = 0.0; ///< among the lugs, given that one alone is off
};

/** One harmonic of an uneven head's tension around the rim. */
struct LugWave
{
    int waves = 2;    ///< maxima around the rim; even
    Estimate cents{}; ///< tap note beside a lug at a maximum over the head's tap note; 0 and an error if only an upper limit is
                      ///< known
};

/** Which lugs to turn. */
struct LugVerdict
{
    enum class Kind
    {
        unknown,      ///< not every lug was tapped
        even,         ///< no lug stands out
        oneLug,       ///< this lug
        oppositeLugs, ///< one of two opposite lugs, which sound the same: turn both by half
        severalLugs   ///< one of these lugs, the recording does not show which
    };

    Kind kind = Kind::unknown;
    std::vector<int> lugs{}; ///< from 0, most probable first
    double correction = 0.0; ///< cents by which to raise each lug; 0 for severalLugs
};

/** The state of one head. */
struct HeadFit
{
    bool isPossible = false; ///< if not, `findings` holds a refusal and the rest is meaningless
    /** Hz. What a person hears beside the lugs and tunes to: this head's own (1,1) over a closed cavity, as far off the model as
       it is, the mean of its two partners if uneven lugs split it. Fits of strikes, in which it is not heard alone, give the
       model's. */
    Estimate tapNote{};
    Estimate tension{};             ///< N/m
    Estimate massRatio{ 1.0, 0.0 }; ///< head's mass over its construction's
    Estimate lossRatio{ 1.0, 0.0 }; ///< losses in head and edge over those predicted; error 0 if not heard
    /** Each lug over the head's tap note, as LugCents; empty unless several lugs were tapped. Where taps do not tell opposite
       lugs apart, both get the mean of what either may be, and an error that covers it. */
    std::vector<Estimate> lugCents{};
    std::vector<LugSuspicion> suspects{}; ///< most probable first; empty unless several lugs were tapped
    std::vector<LugWave> lugWaves{};      ///< from strikes, which show no angles; empty from taps
    double unevenness = 0.0;              ///< by how many standard deviations the taps differ from those of an even head
    double misfit = 0.0;                  ///< root mean square of the residues, in standard deviations; near 1 or below is good
    int tapsUsed = 0;
    std::vector<Finding> findings{};

    /** True if all estimates may be wrong. */
    bool isWarned() const noexcept { return contains (findings, Finding::Severity::warning); }

    /** Opposite lugs sound the same: an uneven field's even harmonics split pairs of modes to first order, its odd ones to second
        only. To turn either of them back, or both by half, takes the same even harmonics away; the odd field that is left is at
        worst half of the fault if both turn by half. */
    LugVerdict verdict() const;
};

/** HeadFit::unevenness from which a head is called uneven, standard deviations. */
inline constexpr double clearlyUneven = 3.0;

/** Least squares on the solver: modes of the head over a closed cavity with the tension field of the lugs, derivatives from the
   eigenproblem, dω² = φᵀ(dK − ω² dM)φ.

    Frequencies of a head depend on the even harmonics of an uneven field (a lug and the opposite one) to first order, on the odd
   ones only to second. Taps with a patch on one side of the head break that symmetry.

    A drum that is open below is tapped as it is; its tap note is still the one over a closed cavity. Modes of a real head lie off
   the model's by tens of cents, so a fit is not refused because of cents, but for notes that no tension explains better than
   chance, and for harmonics of one pitch. A usual mistake that explains the recording better (see head/Rival.h) is named.

    @throws InputError for a setup out of range, or taps at lugs that the drum lacks
*/
HeadFit fitHead (const HeadFitSetup&, const std::vector<HeardTap>&);

} // namespace fitting
