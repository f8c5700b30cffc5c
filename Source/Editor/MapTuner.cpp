#include "MapTuner.h"

#include "Strings.h"

#include "Plugin/SolvedDrum.h"

#include <cmath>

namespace editor
{
namespace
{
using plugin::Parameter;

constexpr int strokeTick = 80;                   // ms between strokes of a drag, at least
constexpr int longestTuning = 3000 / strokeTick; // ticks for a drum that cannot be tuned so

double fineOf (const plugin::Processor& processor, Parameter which)
{
    return 0.01 * processor.parameter (which).plainValue();
}

} // namespace

TuningSpot MapTuner::get() const
{
    const double batterFine = fineOf (processor, Parameter::batterCents),
                 resonantFine = fineOf (processor, Parameter::resonantCents);
    return { processor.parameter (Parameter::batterNote).plainValue() + batterFine,
             processor.parameter (Parameter::interval).plainValue() + resonantFine - batterFine };
}

plugin::Values MapTuner::tuned (plugin::Values values, TuningSpot spot)
{
    const auto fine = [&] (Parameter which) { return 0.01 * static_cast<double> (plugin::valueOf (values, which)); };
    const auto snap = [&] (Parameter which, double plain)
    { values[plugin::indexOf (which)] = static_cast<float> (plugin::specOf (which).snapped (plain)); };
    const double batterFine = fine (Parameter::batterCents), resonantFine = fine (Parameter::resonantCents);
    snap (Parameter::batterNote, spot.batter - batterFine);
    snap (Parameter::interval, spot.interval - resonantFine + batterFine);
    return values;
}

void MapTuner::set (TuningSpot spot)
{
    if (! isTimerRunning())
        before = processor.solvedDrum();
    const auto wanted = tuned (current(), spot);
    for (const auto which : { Parameter::batterNote, Parameter::interval })
        processor.parameter (which).setWithoutGesture (static_cast<double> (plugin::valueOf (wanted, which)));
    waited = 0;
    if (! isTimerRunning())
        startTimer (strokeTick);
}

plugin::Values MapTuner::current() const
{
    plugin::Values values{};
    for (std::size_t i = 0; i < plugin::parameterCount; ++i)
        values[i] = static_cast<float> (processor.parameter (static_cast<Parameter> (i)).plainValue());
    return values;
}

void MapTuner::begin()
{
    start = current();
}

void MapTuner::end()
{
    if (! start)
        return;
    const auto after = current();
    // The undo step records the values before the gesture, so they are restored before it is made.
    for (const auto which : { Parameter::batterNote, Parameter::interval })
        processor.parameter (which).setWithoutGesture (static_cast<double> (plugin::valueOf (*start, which)));
    start.reset();
    processor.setValues (after, strings::tunedOnMap);
}

bool MapTuner::isTuned (const plugin::SolvedDrum& solved) const
{
    constexpr double near = 0.02; // semitones
    const auto wanted = get();
    return std::abs (midiOfHertz (solved.prediction.batter.tapNote, solved.request.tuning.concertPitch) - wanted.batter) < near &&
           std::abs (solved.prediction.interval.semitones - wanted.interval) < near;
}

void MapTuner::timerCallback()
{
    const auto solved = processor.solvedDrum();
    const bool isNew = solved != nullptr && solved != before;
    if (isNew && onTuned)
        onTuned();
    before = solved;
    if ((isNew && isTuned (*solved)) || ++waited > longestTuning)
        stopTimer();
}

} // namespace editor
