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
    double target = 0.0; ///< LUFS, of the measuring stroke with the gain at the time
    const void* matched = nullptr;
};

/** Loudness after ITU-R BS.1770 of the first 400 ms of a stroke at 3 m/s, a quarter of the radius from the centre, mixed to
   stereo as these values say, in LUFS; -infinity if it is not to be heard. Takes some tens of milliseconds. */
double loudnessOf (const std::shared_ptr<const engine::DrumModel>&, const plugin::Values&);

} // namespace editor
