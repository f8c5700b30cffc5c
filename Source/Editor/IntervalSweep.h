#pragma once

#include "Plugin/Processor.h"

namespace editor
{

/** Plays the drum with every interval from a minor second to an octave, then restores the tuning. */
class IntervalSweep : private juce::Timer
{
public:
    explicit IntervalSweep (plugin::Processor& p) : processor (p) {}
    ~IntervalSweep() override { stop(); }

    /** @param stroke  played once per interval */
    void start (const engine::Stroke& stroke);
    void stop();

    bool isRunning() const noexcept { return semitones > 0; }
    int interval() const noexcept { return semitones; } ///< semitones being played, 0 when not running

    std::function<void()> onStep;
    std::function<void (const engine::Stroke&)> onStroke;

private:
    void timerCallback() override;
    void setInterval (double value);

    plugin::Processor& processor;
    engine::Stroke played;
    double original = 0.0;
    int semitones = 0, waited = 0;
    bool hasStruck = false;
};

} // namespace editor
