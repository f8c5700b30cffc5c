#pragma once

#include "SceneKeeper.h"

namespace editor
{

/** Keeps one stroke equally loud through changes of drum and tuning, so that the ear compares the sound and not the level. It
   moves the output gain. */
class LoudnessMatch
{
public:
    LoudnessMatch (plugin::Processor& p, SceneKeeper& k) : processor (p), keeper (k) {}

    /** From now on as loud as now. */
    void setOn (bool);
    bool isOn() const noexcept { return on; }

    /** Call when the scene has changed. */
    void follow();

private:
    double gain() const { return processor.parameter (plugin::Parameter::gain).plainValue(); }

    plugin::Processor& processor;
    SceneKeeper& keeper;
    bool on = false, hasTarget = false;
    double target = 0.0; ///< dB, of the measure stroke with the gain at the time
    const void* matched = nullptr;
};

/** Level of a stroke at 3 m/s, a quarter of the radius from the middle, over 0.4 s and all microphones at these levels, dB
   relative to full scale. Not weighted for the ear. Takes some tens of milliseconds. */
double loudnessOf (const std::shared_ptr<const engine::DrumModel>&, const plugin::Values&);

} // namespace editor
