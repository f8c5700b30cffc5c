#include "AnswerText.h"

#include "FitText.h"
#include "PlanText.h"

#include "Fitting/RodResponse.h"
#include "Modal/pitch/Interval.h"

#include <algorithm>
#include <cmath>

namespace wording
{
namespace
{

using fitting::DrumAnswer;
using fitting::LugVerdict;

/** An answer that is at least this likely as against the first is named beside it. */
constexpr double aboutAsLikely = 0.5;

std::string headName (modal::HeadSide side)
{
    return side == modal::HeadSide::batter ? "batter" : "resonant head";
}

/** "24 cents flat": the error of a lug that has to be raised by as much. */
std::string offBy (double correction)
{
    const auto cents = std::max (1L, std::lround (std::abs (correction)));
    return std::to_string (cents) + (cents == 1 ? " cent " : " cents ") + (correction > 0.0 ? "flat" : "sharp");
}

std::string noteOf (const DrumAnswer::Head& head, modal::ConcertPitch pitch)
{
    return modal::Note::fromFrequency (head.tapNote.value, pitch).nameWithCents();
}

bool isKnown (const DrumAnswer::Head& head)
{
    return head.tapNote.value > 0.0;
}

/** "batter G#3 -8 and resonant head C#4 +5" */
std::string notesOf (const DrumAnswer& answer, modal::ConcertPitch pitch)
{
    return (isKnown (answer.batter) ? "batter " + noteOf (answer.batter, pitch) : std::string ("batter unknown")) +
           (isKnown (answer.resonant) ? " and resonant head " + noteOf (answer.resonant, pitch) : " and resonant head unknown");
}

/** "a perfect fourth", "an augmented fourth"; "between fourth and augmented fourth" and "+12.45 semitones" take none. */
std::string withArticle (const std::string& interval)
{
    if (interval.starts_with ("between ") || interval.front() == '+' || interval.front() == '-')
        return interval;

    return (std::string ("aeiou").find (interval.front()) != std::string::npos ? "an " : "a ") + interval;
}

} // namespace

std::string percentText (double probability)
{
    const auto percent = std::lround (100.0 * probability);
    return percent < 1 ? "under 1 %" : percent > 99 ? "over 99 %" : std::to_string (percent) + " %";
}

std::string turnInWords (double turns)
{
    const std::string way = turns > 0.0 ? "up " : "down ";

    switch (std::lround (std::abs (turns) * 16.0))
    {
    case 0:
        return way + "less than a sixteenth of a turn";
    case 1:
        return way + "a sixteenth of a turn";
    case 2:
        return way + "an eighth of a turn";
    case 4:
        return way + "a quarter turn";
    case 8:
        return way + "half a turn";
    case 16:
        return way + "a full turn";
    default:
        break;
    }

    // "5/16 turn up" of the plans, the other way round
    const auto text = nearTurn (turns);
    return way + text.substr (0, text.rfind (' '));
}

std::string answer (const fitting::HeadFit& fit, modal::HeadSide side, const modal::DrumSpec& drum)
{
    if (! fit.isPossible)
        return mostSevereText (fit.findings);

    const auto verdict = fit.verdict();
    const auto turned = [&]
    { return turnInWords (fitting::turnsForLugCents (verdict.correction, drum, side, fit.tension.value)); };
    const auto lug = verdict.lugs.empty() ? 0 : verdict.lugs.front();

    switch (verdict.kind)
    {
    case LugVerdict::Kind::unknown:
        return "The " + headName (side) + " was tapped at too few lugs: tap beside every lug to find out what to turn.";
    case LugVerdict::Kind::even:
        return "The " + headName (side) + " is even: nothing to turn.";
    case LugVerdict::Kind::oneLug:
        return "Lug " + std::to_string (lug + 1) + " is " + offBy (verdict.correction) + ": turn it " + turned() +
               (drum.lugs % 2 == 0 ? ", then check lug " + std::to_string ((lug + drum.lugs / 2) % drum.lugs + 1) + " opposite."
                                   : ", then tap beside it again.");
    case LugVerdict::Kind::oppositeLugs:
        return "Lug " + std::to_string (lug + 1) + " or lug " + std::to_string (verdict.lugs.back() + 1) + " opposite is " +
               offBy (2.0 * verdict.correction) + ", and they sound the same: turn both " + turned() +
               ", then tap beside them again.";
    case LugVerdict::Kind::severalLugs:
        return "One of lugs " + listOfLugs (verdict.lugs, "or") +
               " is off, and the taps do not show which: tap around once more, closer to the microphone.";
    }

    return {};
}

std::string answer (const fitting::DrumFit& fit, modal::ConcertPitch pitch)
{
    if (! fit.isPossible || fit.answers.empty())
        return mostSevereText (fit.findings);

    const auto& first = fit.answers.front();
    std::vector<const DrumAnswer*> likely;

    for (const auto& one : fit.answers)
        if (one.probability >= aboutAsLikely * first.probability)
            likely.push_back (&one);

    if (likely.size() > 1)
    {
        std::string text = "Either ";

        for (std::size_t i = 0; i < likely.size(); ++i)
            text += (i == 0 ? "" : i + 1 == likely.size() ? " or, about as likely, " : ", ") + notesOf (*likely[i], pitch);

        return text + ".";
    }

    if (! isKnown (first.resonant) || ! isKnown (first.batter))
        return "The " + headName (isKnown (first.batter) ? modal::HeadSide::batter : modal::HeadSide::resonant) + " is at " +
               noteOf (isKnown (first.batter) ? first.batter : first.resonant, pitch) +
               "; the strikes do not show the other head.";

    const modal::Interval apart{ modal::centsBetween (first.batter.tapNote.value, first.resonant.tapNote.value) / 100.0 };
    return "The batter is at " + noteOf (first.batter, pitch) + " and the resonant head at " + noteOf (first.resonant, pitch) +
           ": " + withArticle (apart.longName()) + ".";
}

} // namespace wording
