#include "StrikeWatcher.h"

namespace editor
{
namespace
{

constexpr int strikeLooksPerSecond = 25;

/** The sound is analysed once this much is recorded, and again each time the length doubles. */
constexpr double firstLook = 0.12; // s

} // namespace

StrikeWatcher::StrikeWatcher (plugin::Processor& p, SceneKeeper& k) : processor (p), keeper (k)
{
    lastStroke = processor.lastStrike().strokeCount();
    startTimerHz (strikeLooksPerSecond);
}

void StrikeWatcher::timerCallback()
{
    const auto stroke = processor.lastStrike().strokeCount();
    if (stroke != lastStroke)
    {
        lastStroke = stroke;
        analysedSamples = 0;
        const auto solved = processor.solvedDrum();
        struck = solved != nullptr ? solved->model : nullptr;
        followMotion();
    }
    analyseSound();
}

void StrikeWatcher::followMotion()
{
    const auto model = keeper.scene().model;
    if (isFollowing || model == nullptr)
        return;
    isFollowing = true;
    keeper.later ([model, stroke = processor.lastStrike().stroke()]
                  { return std::make_shared<const Motion> (followStrike (model, stroke)); },
                  [this] (std::shared_ptr<const Motion> motion)
                  {
                      isFollowing = false;
                      if (onMotion)
                          onMotion (std::move (motion));
                  });
}

void StrikeWatcher::analyseSound()
{
    const double rate = processor.currentSampleRate();
    const auto recorded = static_cast<std::size_t> (processor.lastStrike().recordedSamples());
    const auto enough = analysedSamples == 0 ? static_cast<std::size_t> (firstLook * rate) : 2 * analysedSamples;
    const bool isComplete = recorded == plugin::StrikeRecording::capacity && analysedSamples < recorded;
    if (lastStroke == 0 || rate <= 0.0 || isAnalysing || keeper.scene().now == nullptr || (recorded < enough && ! isComplete))
        return;
    isAnalysing = true;
    auto copy = processor.lastStrike().copy();
    if (copy.stroke == lastStroke)
        analysedSamples = copy.samples.size();
    keeper.later (
        [samples = std::move (copy.samples), rate, note = keeper.scene().now->drumNote, drum = struck]
        {
            auto heard = std::make_shared<Analysis> (analyse (samples, rate, note));
            heard->drum = drum;
            return std::shared_ptr<const Analysis> (std::move (heard));
        },
        [this] (std::shared_ptr<const Analysis> analysis)
        {
            isAnalysing = false;
            if (onAnalysis)
                onAnalysis (std::move (analysis));
        });
}

} // namespace editor
