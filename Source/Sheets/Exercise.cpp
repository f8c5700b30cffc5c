#include "Exercise.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <set>

namespace sheets
{
namespace
{

// Common practice, no source: a trained ear hears a quarter tone on a drum; no ear hears a twentieth of a semitone.
constexpr double clearlyMoved = 0.5; // semitones
constexpr double held = 0.05;        // semitones

enum class Motion
{
    down,
    none,
    up,
    unclear
};

Motion motion (double fromHertz, double toHertz)
{
    const double semitones = modal::centsBetween (fromHertz, toHertz) / 100.0;

    if (std::abs (semitones) <= held)
        return Motion::none;
    if (std::abs (semitones) < clearlyMoved)
        return Motion::unclear;

    return semitones > 0.0 ? Motion::up : Motion::down;
}

/** Index of the right answer, or -1. */
using Judge = std::function<int (const PlayedStep& from, const PlayedStep& to)>;

Question ask (const std::vector<PlayedStep>& steps, std::string text, std::vector<std::string> answers, const Judge& judge)
{
    Question question{ std::move (text), std::move (answers), {}, false };

    for (const auto& from : steps)
        for (const auto& to : steps)
            question.right.push_back (judge (from, to));

    return question;
}

bool isOneDrum (const PlayedStep& a, const PlayedStep& b)
{
    return a.prediction.drum.name == b.prediction.drum.name;
}

/** 0 batter, 1 resonant, 2 both, 3 neither. */
int headThatMoved (const PlayedStep& from, const PlayedStep& to)
{
    const auto &a = from.prediction, &b = to.prediction;

    if (! isOneDrum (from, to) || ! a.drum.hasResonantHead() || ! b.drum.hasResonantHead())
        return -1;

    const auto batter = motion (a.batter.tapNote, b.batter.tapNote), resonant = motion (a.resonant.tapNote, b.resonant.tapNote);

    if (batter == Motion::unclear || resonant == Motion::unclear)
        return -1;
    if (batter == Motion::none)
        return resonant == Motion::none ? 3 : 1;

    return resonant == Motion::none ? 0 : 2;
}

/** 0 up, 1 down, 2 stayed. */
int wayOfDrumNote (const PlayedStep& from, const PlayedStep& to)
{
    switch (motion (from.prediction.drumNote, to.prediction.drumNote))
    {
    case Motion::up:
        return 0;
    case Motion::down:
        return 1;
    case Motion::none:
        return 2;
    default:
        return -1;
    }
}

/** The whole number of semitones that the heads stand apart, if they do within a tenth. */
std::optional<int> wholeInterval (const PlayedStep& step)
{
    constexpr double tolerance = 0.1;
    const double semitones = step.prediction.interval.semitones, whole = std::round (semitones);

    if (! step.prediction.drum.hasResonantHead() || std::abs (semitones - whole) > tolerance)
        return std::nullopt;

    return static_cast<int> (whole);
}

Question intervalQuestion (const std::vector<PlayedStep>& steps)
{
    std::set<int> intervals;

    for (const auto& step : steps)
        if (const auto whole = wholeInterval (step))
            intervals.insert (*whole);

    std::vector<std::string> names;

    for (const int semitones : intervals)
        names.push_back (modal::Interval{ static_cast<double> (semitones) }.longName());

    auto question = ask (steps, "What is the interval between the heads?", names,
                         [&] (const PlayedStep&, const PlayedStep& to)
                         {
                             const auto whole = wholeInterval (to);
                             return whole ? static_cast<int> (std::distance (intervals.begin(), intervals.find (*whole))) : -1;
                         });
    question.isAboutOneSound = true;
    return question;
}

/** 0 drum, 1 wires, 2 muffling, 3 none of them. */
int otherChange (const PlayedStep& from, const PlayedStep& to)
{
    const auto &a = from.step.drum, &b = to.step.drum;
    const bool changed[] = { ! isOneDrum (from, to), files::wiresAsJson (a.wires) != files::wiresAsJson (b.wires),
                             files::mufflingAsJson (a.drum.muffling) != files::mufflingAsJson (b.drum.muffling) };
    const auto count = std::count (std::begin (changed), std::end (changed), true);

    if (count > 1)
        return -1;

    return static_cast<int> (std::find (std::begin (changed), std::end (changed), true) - std::begin (changed));
}

/** Whether the answers differ anywhere off the diagonal: no step is heard after itself. */
bool isWorthAsking (const Question& question, std::size_t steps)
{
    std::set<int> answers;

    for (std::size_t i = 0; i < question.right.size(); ++i)
        if (i / steps != i % steps && question.right[i] >= 0)
            answers.insert (question.right[i]);

    return answers.size() > 1;
}

} // namespace

std::vector<Question> questionsAbout (const std::vector<PlayedStep>& steps)
{
    std::vector<Question> questions{
        ask (steps, "Which head moved since the sound before?", { "batter", "resonant", "both", "neither" }, headThatMoved),
        ask (steps, "Did the drum note go up or down?", { "up", "down", "it stayed" }, wayOfDrumNote),
        intervalQuestion (steps),
        ask (steps, "What else changed?", { "the drum", "the wires", "the muffling", "nothing else" }, otherChange),
    };

    std::erase_if (questions, [&] (const Question& q) { return ! isWorthAsking (q, steps.size()); });
    return questions;
}

} // namespace sheets
