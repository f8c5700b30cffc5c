#include "FitText.h"

#include "PlanText.h"

#include "Modal/InputError.h"
#include "Modal/Units.h"
#include "Modal/pitch/Note.h"

#include <algorithm>
#include <cmath>

namespace wording
{
namespace
{

using fitting::Finding;
using modal::asText;

const std::string checkSetUp =
    " Check that the other head is held still with a cloth or a hand, and that diameter, depth and this "
    "head are as stated.";
const std::string checkDrum = " Check diameter, depth and both heads, that nothing lies on the drum, and that the wires are off.";
const std::string checkNotes =
    " Check that diameter, depth and heads are as stated, that nothing lies on the drum, and that the wires are off.";
const std::string strikeHead = " Add some strikes on this head itself, near its edge.";

std::string whole (double value)
{
    return std::to_string (std::lround (value));
}

std::string inches (double metres)
{
    return asText (metres / modal::units::inch, 3) + " in";
}

std::string headName (const Finding& finding)
{
    return ! finding.head ? "head" : *finding.head == modal::HeadSide::batter ? "batter head" : "resonant head";
}

std::string otherMass (const Finding& finding)
{
    const double ratio = finding.numbers.at (0);
    const auto head = "a " + headName (finding) + " " + asText (100.0 * std::abs (ratio - 1.0), 2) + " % " +
                      (ratio < 1.0 ? "lighter" : "heavier") + " than stated";
    const auto& check = finding.head ? checkDrum : checkSetUp;

    return finding.severity == Finding::Severity::warning
               ? "The notes fit " + head + "; nineteen of twenty such heads differ by less." + check +
                     " If all is as stated, tension and mass are both wrong."
               : "The notes fit only " + head + ", which is outside its tolerance." + check;
}

std::string sentence (const Finding& finding)
{
    const auto at = [&] (std::size_t i) { return finding.numbers.at (i); };
    using Kind = Finding::Kind;

    switch (finding.kind)
    {
    case Kind::noReadableTap:
        return "No tap on the bare head gave a readable note.";
    case Kind::tooFewNotes:
        return "Only " + whole (at (0)) +
               " notes were heard, too few for two heads. Strike at the centre, half way and near the edge, and let each strike "
               "ring.";
    case Kind::tooFewModes:
        return "Too few of the expected modes were heard. Record closer to the lug." + checkSetUp;
    case Kind::tooFewCoupledModes:
        return "Only " + whole (at (0)) +
               " modes of the drum were heard, too few for two heads. Strike at the centre, half way and near the edge.";
    case Kind::noTension:
        return "No tension of this head on a drum of this size gives the notes heard. Check that the wires are off." + checkSetUp;
    case Kind::noTuning:
        return "No tuning of a drum of this size gives the notes heard." + checkDrum;
    case Kind::harmonicNotes:
        return "The notes are harmonics of one pitch, as of a voice or a string, not the modes of a drum.";
    case Kind::unexplainedNotes:
        if (finding.severity == Finding::Severity::warning)
            return "Many of the notes heard lie far from the modes of a drum of this size, so the answers are little better than "
                   "a guess." +
                   checkNotes;

        return "Too many of the notes heard belong to no mode of a drum of this size." + checkNotes;
    case Kind::inconsistentNotes:
        return "The notes heard do not fit together on a drum of this size: they are off by " + asText (at (0), 2) +
               " times the expected error." + checkNotes;
    case Kind::otherMass:
        return otherMass (finding);
    case Kind::otherDiameter:
        return "A drum of " + inches (at (0)) + " explains the notes better than one of " + inches (at (1)) +
               ". Check the diameter, and that this is the head that was tapped.";
    case Kind::otherHeadRings:
        return "The notes are those of a drum whose other head rings too. Hold it still with a cloth or a hand and tap around "
               "the lugs again, or fit this recording as strikes of the whole drum.";
    case Kind::openBelow:
        return "The notes are those of a drum that is open below. Check that the other head is on and held still. If there is "
               "none, describe the drum as open.";
    case Kind::closedBelow:
        return "The notes are those of a drum that is closed below, though it is stated to be open. Check that it does not stand "
               "on something.";
    case Kind::twoTunings:
        return "More than one tuning explains the notes: batter " + asText (at (0), 3) + " and resonant " + asText (at (1), 3) +
               " N/m, or " + asText (at (2), 3) + " and " + asText (at (3), 3) +
               " N/m. Strike near the edge, and the resonant head too.";
    case Kind::fastDecay:
        return "The notes fade " + asText (at (0), 2) +
               " times as fast as this head alone would. Check that nothing lies on it or touches it." + checkSetUp;
    case Kind::slowDecay:
        return "The notes ring longer than this head can." + checkSetUp;
    case Kind::oneKindOfMode:
        return "Only one kind of mode was heard, so nothing confirms that the drum's size and head are as stated.";
    case Kind::massNotMeasured:
        return std::string ("The recording does not show the head's mass; it is taken as stated.") +
               (at (0) > 0.8 ? " A heavier head at a higher tension would sound the same." : "");
    case Kind::tapNotesOnly:
        return "Tap notes alone do not show the head's mass; it is taken as stated. A recording tells more.";
    case Kind::oneLugTapped:
        return "Only one lug was tapped, so the evenness of the head is unknown. Tap beside every lug in turn.";
    case Kind::headUnknown:
        return "The strikes do not show this head's tension: the best guess is " + whole (at (0)) + " ± " + whole (at (1)) +
               " N/m, and the head yields at " + whole (at (2)) + " N/m." + strikeHead;
    case Kind::vagueTapNote:
        return "This head's tap note is vague, because too little of it is heard through the batter." + strikeHead;
    case Kind::noModeOfItsOwn:
        return "None of this head's own modes was heard. Its tension comes from its effect on the other head and depends on the "
               "depth and vent as stated.";
    case Kind::resonantHeldStill:
        return "The notes would be the same with the resonant head held still, so they say nothing about it. Let it ring and "
               "strike again; if it was held still, fit the recording as a lug check.";
    case Kind::linkedTensions:
        return std::string ("The two tensions are hard to separate: if one is too high, the other is too ") +
               (at (0) > 0.0 ? "high." : "low.");
    case Kind::lugsNotLocated:
        return "Strikes show how uneven the lugs are, not which, and miss a lug that is high while the opposite one is low by "
               "the same. Tap beside every lug to find that.";
    case Kind::unknownEvenness:
        return "The evenness of the " + headName (finding) + " is unknown: no pair of its own modes was heard.";
    }

    return {};
}

} // namespace

std::string listOfLugs (std::vector<int> lugs, const std::string& conjunction)
{
    std::sort (lugs.begin(), lugs.end());
    std::string list;

    for (std::size_t i = 0; i < lugs.size(); ++i)
        list += (i == 0 ? "" : i + 1 == lugs.size() ? " " + conjunction + " " : ", ") + std::to_string (lugs[i] + 1);

    return list;
}

std::string text (const Finding& finding)
{
    const bool isRival = finding.kind == Finding::Kind::otherHeadRings || finding.kind == Finding::Kind::openBelow ||
                         finding.kind == Finding::Kind::closedBelow || finding.kind == Finding::Kind::otherDiameter;
    return sentence (finding) +
           (isRival && finding.severity == Finding::Severity::warning ? " This is likely, not certain." : "");
}

std::string mostSevereText (const std::vector<Finding>& findings)
{
    const auto* most = fitting::mostSevere (findings);
    return most == nullptr ? std::string() : text (*most);
}

std::string action (const fitting::LugVerdict& verdict, std::optional<double> turnsEach)
{
    const auto change = [&] (const char* each)
    {
        return (verdict.correction > 0.0 ? "Raise lug" : "Lower lug") + std::string (verdict.lugs.size() > 1 ? "s " : " ") +
               listOfLugs (verdict.lugs, "and") + " by " + whole (std::abs (verdict.correction)) + " cents" + each +
               (turnsEach ? ", on a typical drum " + nearTurn (*turnsEach) : std::string());
    };

    switch (verdict.kind)
    {
    case fitting::LugVerdict::Kind::unknown:
        return "Tap beside every lug to find out what to turn";
    case fitting::LugVerdict::Kind::even:
        return "Nothing to turn: no lug stands out";
    case fitting::LugVerdict::Kind::oneLug:
        return change ("");
    case fitting::LugVerdict::Kind::oppositeLugs:
        return change (" each");
    case fitting::LugVerdict::Kind::severalLugs:
        return "Tap around the lugs once more, closer to the microphone";
    }

    return {};
}

std::string reason (const fitting::LugVerdict& verdict)
{
    switch (verdict.kind)
    {
    case fitting::LugVerdict::Kind::oppositeLugs:
        return "One of lugs " + listOfLugs (verdict.lugs, "and") +
               " is probably off, but opposite lugs sound the same. Half the correction on each removes the beating and leaves "
               "each lug at most half as far off. A second lug check with a known weight on one side of the head, between two "
               "lugs, may decide.";
    case fitting::LugVerdict::Kind::severalLugs:
        return "One of lugs " + listOfLugs (verdict.lugs, "or") + " may be off; the recording does not show which.";
    case fitting::LugVerdict::Kind::unknown:
    case fitting::LugVerdict::Kind::even:
    case fitting::LugVerdict::Kind::oneLug:
        break;
    }

    return {};
}

std::string whatDecides (const std::vector<fitting::DrumAnswer>& answers, modal::ConcertPitch pitch)
{
    if (answers.size() < 2)
        return {};

    const auto& first = answers[0];
    const auto& second = answers[1];
    const auto apart = [] (const fitting::Estimate& a, const fitting::Estimate& b)
    { return a.value > 0.0 && b.value > 0.0 ? std::abs (modal::centsBetween (a.value, b.value)) : 0.0; };
    const bool isBatter =
        apart (first.batter.tapNote, second.batter.tapNote) > apart (first.resonant.tapNote, second.resonant.tapNote);
    const auto& one = isBatter ? first.batter.tapNote : first.resonant.tapNote;
    const auto& other = isBatter ? second.batter.tapNote : second.resonant.tapNote;
    const std::string head = isBatter ? "batter" : "resonant", still = isBatter ? "resonant" : "batter";

    const auto density = [] (const fitting::DrumAnswer::Head& answer) { return answer.construction.baseDensity(); };
    constexpr double otherHead = 0.1; // relative mass

    if (std::abs (std::log (density (first.batter) / density (second.batter))) > otherHead)
        return "The two most probable answers have batter heads of different mass. To decide, stick a weight of about 2 g to the "
               "centre of the batter head and record the strikes again.";

    if (first.resonant.tension.value > 0.0 && second.resonant.tension.value > 0.0 &&
        std::abs (std::log (density (first.resonant) / density (second.resonant))) > otherHead)
        return "The two most probable answers have resonant heads of different mass. Look up which resonant head is on the drum.";

    if (apart (one, other) < 20.0)
        return std::string ("The two most probable answers sound nearly the same") +
               (first.diameter != second.diameter ? "; measure the drum's diameter across the bearing edges to decide." : ".");

    const auto name = [pitch] (double hertz) { return modal::Note::fromFrequency (hertz, pitch).nameWithCents(); };
    return "To decide, hold the " + still + " head still with a cloth and tap the " + head + " head beside a lug: near " +
           name (one.value) + " the first answer is right, near " + name (other.value) +
           " the second. Or tighten every rod of the " + head +
           " head by an eighth of a turn and record the strikes again: only that head's modes move.";
}

std::string text (const fitting::LugWave& wave)
{
    const auto [cents, error] = wave.cents;
    return std::to_string (wave.waves) + " waves around the head, " +
           (cents > 2.0 * error ? whole (cents) + " ± " + whole (error) : "at most " + whole (cents + 2.0 * error)) +
           " cents at a lug";
}

} // namespace wording
