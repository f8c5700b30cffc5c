#include "SceneKeeper.h"

#include "Modal/InputError.h"

namespace editor
{
namespace
{

/** How long a tuning must stand before it is played through in the background. */
constexpr int settling = 250; // ms

std::shared_ptr<const engine::PlayedResponse> play (const std::shared_ptr<const engine::DrumModel>& model)
{
    try
    {
        return std::make_shared<const engine::PlayedResponse> (engine::playedResponse (model->setup()));
    }
    catch (const modal::InputError&)
    {
        return nullptr; // a drum that cannot be played has nothing to tell; the processor has said why
    }
}

/** A snapshot's drum, worked out. */
struct SnapshotDrum
{
    std::shared_ptr<const modal::Prediction> prediction;
    std::shared_ptr<const engine::PlayedResponse> played;
};

SnapshotDrum workOut (const plugin::Values& values, double sampleRate)
{
    try
    {
        const auto request = plugin::requestOf (values);
        auto prediction = std::make_shared<const modal::Prediction> (modal::predict (request.drum, request.tuning));
        const auto tensions = modal::tensionsFor (request.drum, request.tuning);
        auto setup = engine::setUp (request.drum, tensions, modal::solve (request.drum, tensions),
                                    { request.wires, request.hoop, request.stick });
        setup.microphones = request.microphones;
        setup.sampleRate = sampleRate;
        return { prediction, std::make_shared<const engine::PlayedResponse> (engine::playedResponse (setup)) };
    }
    catch (const modal::InputError&)
    {
        return {}; // nothing to compare with
    }
}

} // namespace

SceneKeeper::SceneKeeper (plugin::Processor& p) : processor (p)
{
    processor.solvedDrumChanged().addChangeListener (this);
    take (processor.solvedDrum());
    refreshSnapshot();
}

SceneKeeper::~SceneKeeper()
{
    processor.solvedDrumChanged().removeChangeListener (this);
    jobs.removeAllJobs (true, -1);
    masterReference.clear(); // what is still on its way finds nobody
}

void SceneKeeper::changeListenerCallback (juce::ChangeBroadcaster*)
{
    take (processor.solvedDrum());
    if (processor.hasSnapshot (plugin::LiveSound::a) != hasSnapshot)
        refreshSnapshot();
    tell();
}

void SceneKeeper::take (std::shared_ptr<const plugin::SolvedDrum> solved)
{
    if (solved == nullptr || solved == latest)
        return;
    if (isHeard)
        previous = current;
    isHeard = false;
    latest = solved;
    current.now = { solved, &solved->prediction };
    current.model = solved->model;
    current.played = nullptr;
    if (! hasSnapshot)
    {
        current.before = previous.now;
        current.playedBefore = previous.played;
    }
    startTimer (settling);
}

void SceneKeeper::timerCallback()
{
    stopTimer();
    if (current.model == nullptr)
        return;
    later (
        [model = current.model] {
            return std::pair{ model, play (model) };
        },
        [this] (std::pair<std::shared_ptr<const engine::DrumModel>, Response> result)
        {
            if (result.first != current.model)
                return;
            current.played = result.second;
            isHeard = true;
            tell();
        });
}

void SceneKeeper::refreshSnapshot()
{
    hasSnapshot = processor.hasSnapshot (plugin::LiveSound::a);
    const auto number = ++snapshotNumber;
    current.before = hasSnapshot ? nullptr : previous.now;
    current.playedBefore = hasSnapshot ? nullptr : previous.played;
    const auto values = processor.state().a;
    if (! hasSnapshot || ! values)
    {
        tell();
        return;
    }
    const double rate = latest != nullptr ? latest->model->setup().sampleRate : 48000.0;
    later ([values = *values, rate] { return workOut (values, rate); },
           [this, number] (SnapshotDrum drum)
           {
               if (number != snapshotNumber)
                   return;
               current.before = drum.prediction;
               current.playedBefore = drum.played;
               tell();
           });
}

void SceneKeeper::tell() const
{
    if (onChange)
        onChange();
}

} // namespace editor
