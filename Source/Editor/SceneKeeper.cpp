#include "SceneKeeper.h"

#include "Modal/InputError.h"
#include "Score/StrokeEnergy.h"

#include <utility>

namespace editor
{
namespace
{

/** How long a tuning must stay unchanged before it is played through in the background. */
constexpr int settling = 250; // ms

/** What playing a drum tells, alone and in its place. */
struct Heard
{
    std::shared_ptr<const plugin::SolvedDrum> drum;
    std::shared_ptr<const engine::PlayedResponse> played;
    std::shared_ptr<const place::AtListener> atListener;
};

Heard play (const std::shared_ptr<const plugin::SolvedDrum>& drum)
{
    Heard heard{ drum, nullptr, nullptr };
    try
    {
        const auto& setup = drum->model->setup();
        const auto& prediction = drum->prediction;
        heard.played = std::make_shared<const engine::PlayedResponse> (engine::playedResponse (setup));
        if (const auto& place = drum->request.place)
            heard.atListener = std::make_shared<const place::AtListener> (
                place::atListener (*place, prediction.drumNote, prediction.sustain, score::strokeEnergy (setup)));
    }
    catch (const modal::InputError&)
    {
        // The processor has reported why it cannot be played.
    }
    return heard;
}

/** Solves a snapshot's drum in the same way as the current one, so that equal settings give equal figures. */
struct SnapshotDrum
{
    std::shared_ptr<const modal::Prediction> prediction;
    std::shared_ptr<const engine::PlayedResponse> played;
};

SnapshotDrum solveSnapshot (const plugin::Values& values, double sampleRate)
{
    try
    {
        const auto request = plugin::requestOf (values);
        const auto tensions = modal::tensionsFor (request.drum, request.tuning);
        const auto options = plugin::playedModes (request.drum, tensions);
        auto prediction = std::make_shared<const modal::Prediction> (
            modal::predict (request.drum, request.tuning, plugin::predictedModes (options)));
        const auto setup = plugin::setUpDrum (request, tensions, modal::solve (request.drum, tensions, options), sampleRate);
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
}

void SceneKeeper::changeListenerCallback (juce::ChangeBroadcaster*)
{
    take (processor.solvedDrum());
    const bool isOtherRate = latest != nullptr && compared && latest->model->setup().sampleRate != snapshotRate;
    if (kept() != compared || isOtherRate)
        refreshSnapshot();
    tell();
}

void SceneKeeper::setTrying (bool isTrying)
{
    if (isTrying == tried.has_value())
        return;
    if (isTrying)
    {
        tried = Tried{ current, isHeard };
        return;
    }
    const auto before = *std::exchange (tried, std::nullopt);
    // A trial tuning is never compared with.
    isHeard = before.wasHeard && current.model == before.scene.model;
    if (! compared)
    {
        current.before = before.scene.before;
        current.playedBefore = before.scene.playedBefore;
    }
    tell();
}

void SceneKeeper::take (std::shared_ptr<const plugin::SolvedDrum> solved)
{
    if (solved == nullptr || solved == latest)
        return;
    if (isHeard && ! tried)
        previous = current;
    isHeard = false;
    latest = solved;
    current.now = { solved, &solved->prediction };
    current.model = solved->model;
    current.played = nullptr;
    current.isInPlace = solved->request.place.has_value();
    current.atListener = nullptr;
    current.tempo = processor.parameter (plugin::Parameter::patternTempo).plainValue();
    if (! compared)
    {
        const auto& from = tried ? tried->scene : previous;
        current.before = from.now;
        current.playedBefore = from.played;
    }
    startTimer (settling);
}

void SceneKeeper::timerCallback()
{
    stopTimer();
    if (current.model == nullptr)
        return;
    later ([drum = latest] { return play (drum); },
        [this] (const Heard& heard)
        {
            if (heard.drum != latest)
                return;
            current.played = heard.played;
            current.atListener = heard.atListener;
            isHeard = true;
            tell();
        });
}

void SceneKeeper::setReference (Snapshot which)
{
    wanted = which;
    refreshSnapshot();
}

/** The kept tuning to compare with. */
std::optional<SceneKeeper::Snapshot> SceneKeeper::kept() const noexcept
{
    if (processor.hasSnapshot (wanted))
        return wanted;
    for (std::size_t i = 0; i < plugin::LiveSound::snapshotCount; ++i)
        if (const auto which = static_cast<Snapshot> (i); processor.hasSnapshot (which))
            return which;
    return std::nullopt;
}

void SceneKeeper::refreshSnapshot()
{
    compared = kept();
    const auto number = ++snapshotNumber;
    current.before = compared ? nullptr : previous.now;
    current.playedBefore = compared ? nullptr : previous.played;
    if (! compared)
    {
        tell();
        return;
    }
    snapshotRate = latest != nullptr ? latest->model->setup().sampleRate : 48000.0;
    later ([values = processor.snapshot (*compared), rate = snapshotRate] { return solveSnapshot (values, rate); },
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
