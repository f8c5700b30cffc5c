#pragma once

#include "SceneKeeper.h"

namespace editor
{

/** Adjusts the output gain so that one stroke keeps its level when drum or tuning change: a comparison by ear needs equal
   levels. */
class LoudnessMatch
{
public:
    LoudnessMatch (plugin::Processor& p, SceneKeeper& k) : processor (p), keeper (k) {}

    /** Keeps the current level from now on. */
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

/** Level of a stroke at 3 m/s, a quarter of the radius from the centre, over 0.4 s and all microphones at these levels, dB
   relative to full scale. Not weighted for the ear. Takes some tens of milliseconds. */
double loudnessOf (const std::shared_ptr<const engine::DrumModel>&, const plugin::Values&);

} // namespace editor
