#pragma once

#include "MapPicture.h"

#include "Plugin/Processor.h"

namespace editor
{

/** Tunes the drum to places on the map, and has a stroke played once it is tuned. Message thread. */
class MapTuner : private juce::Timer
{
public:
    explicit MapTuner (plugin::Processor& p) : processor (p) {}

    std::function<void()> onTuned; ///< plays a stroke

    /** Where the drum is set to be, fine tuning included. */
    TuningSpot get() const;

    /** Sets both heads, and has a stroke played when the drum is solved; during a drag each time it is. */
    void set (TuningSpot);

    /** These values tuned so; fine tuning stays. */
    static plugin::Values tuned (plugin::Values, TuningSpot);

    // Enclose a change that is one undo step.
    void begin();
    void end();

private:
    void timerCallback() override;
    plugin::Values current() const;
    bool isTuned (const plugin::SolvedDrum&) const;

    plugin::Processor& processor;
    std::optional<plugin::Values> start;
    std::shared_ptr<const plugin::SolvedDrum> before; ///< the last one that was looked at
    int waited = 0;
};

} // namespace editor
