#pragma once

#include "Analysis.h"
#include "Motion.h"
#include "SceneKeeper.h"

namespace editor
{

/** Detects strokes from any source and has their motion and sound analysed. */
class StrikeWatcher : private juce::Timer
{
public:
    StrikeWatcher (plugin::Processor&, SceneKeeper&);

    std::function<void (std::shared_ptr<const Motion>)> onMotion;
    std::function<void (std::shared_ptr<const Analysis>)> onAnalysis;

private:
    void timerCallback() override;
    void followMotion();
    void analyseSound();

    plugin::Processor& processor;
    SceneKeeper& keeper;
    std::uint32_t lastStroke = 0;
    std::shared_ptr<const engine::DrumModel> struck; ///< by the last stroke
    std::size_t analysedSamples = 0;
    bool isFollowing = false, isAnalysing = false;
};

} // namespace editor
