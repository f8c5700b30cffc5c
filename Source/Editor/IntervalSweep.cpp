#include "IntervalSweep.h"

#include <cmath>

namespace editor
{
namespace
{

constexpr int octave = 12;
constexpr int tick = 50;                 // ms
constexpr int ringing = 900 / tick;      // ticks per interval
constexpr int longestWait = 3000 / tick; // ticks to wait if the drum cannot be tuned to the interval

} // namespace

void IntervalSweep::start (const engine::Stroke& stroke)
{
    stop();
    played = stroke;
    original = processor.parameter (plugin::Parameter::interval).plainValue();
    semitones = 1;
    waited = 0;
    hasStruck = false;
    setInterval (semitones);
    startTimer (tick);
    if (onStep)
        onStep();
}

void IntervalSweep::stop()
{
    if (semitones == 0)
        return;
    stopTimer();
    semitones = 0;
    setInterval (original);
    if (onStep)
        onStep();
}

void IntervalSweep::setInterval (double value)
{
    // Without a gesture, so that the trial leaves no undo step.
    auto& parameter = processor.parameter (plugin::Parameter::interval);
    parameter.setValueNotifyingHost (parameter.convertTo0to1 (static_cast<float> (value)));
}

void IntervalSweep::timerCallback()
{
    ++waited;
    if (! hasStruck)
    {
        const auto solved = processor.solvedDrum();
        const double fine = 0.01 * (processor.parameter (plugin::Parameter::resonantCents).plainValue() -
                                    processor.parameter (plugin::Parameter::batterCents).plainValue());
        const bool isTuned = solved != nullptr && std::abs (solved->prediction.interval.semitones - semitones - fine) < 0.02;
        if (! isTuned && waited < longestWait)
            return;
        hasStruck = true;
        waited = 0;
        if (isTuned && onStroke)
            onStroke (played);
        return;
    }
    if (waited < ringing)
        return;
    if (semitones == octave)
    {
        stop();
        return;
    }
    ++semitones;
    waited = 0;
    hasStruck = false;
    setInterval (semitones);
    if (onStep)
        onStep();
}

} // namespace editor
