#pragma once

#include "HandOver.h"
#include "LiveSound.h"
#include "Messages.h"
#include "SolvedDrum.h"

#include <condition_variable>
#include <functional>
#include <mutex>
#include <thread>

namespace plugin
{

/** A model on its way to the audio thread, and a former one on its way back. */
struct Delivery
{
    std::shared_ptr<const engine::DrumModel> model;
};

/** Works out the drum on a thread of its own whenever the settings have changed; changes that come while it works are taken
    together. */
class Solver
{
public:
    /** @param whenSolved   called on the solver's thread when latest() has changed */
    Solver (const LiveSound&, Messages&, std::function<void()> whenSolved);
    ~Solver();

    /** Hz, 22 050 to 192 000. */
    void setSampleRate (double);

    /** Not from the audio thread, except in an offline render: looks at once instead of within some milliseconds. */
    void wake();

    /** Waits until what was asked so far has been solved or refused. For threads that may wait. */
    void waitUntilSolved();

    /** The models, for the audio thread. */
    HandOver<Delivery>& models() noexcept { return handOver; }

    /** The latest drum with its prediction; nullptr before the first. Not for the audio thread. */
    std::shared_ptr<const SolvedDrum> latest() const;

    /** The latest model, at the sample rate that was set last; it may be ahead of latest(). Not for the audio thread. */
    std::shared_ptr<const engine::DrumModel> latestModel() const;

    /** Longest T60 of the modes that carry the tone, s. Any thread. */
    double sustain() const noexcept { return longestSustain.load (std::memory_order_relaxed); }

    /** Models handed over so far. Any thread. */
    int solvedCount() const noexcept { return deliveries.load (std::memory_order_relaxed); }

private:
    struct Work;

    void run();
    bool hasNews() const noexcept;
    void solveOnce();
    void solve (const Values&, std::optional<int> playedNote, double rate);
    void fallBack (double rate);
    void deliver (const Work&);
    void predictFor (const Work&);
    void publish (std::shared_ptr<const SolvedDrum>);

    const LiveSound& sound;
    Messages& messages;
    std::function<void()> solved;
    HandOver<Delivery> handOver;

    mutable std::mutex mutex;
    std::condition_variable news, done;
    std::shared_ptr<const SolvedDrum> current;
    std::shared_ptr<const engine::DrumModel> model;
    bool shouldStop = false, isWoken = false;
    std::atomic<double> sampleRate{ 48000.0 };
    std::atomic<double> longestSustain{ 1.0 };
    std::atomic<int> deliveries{ 0 };
    std::uint32_t finishedChanges = 0;
    bool hasFinishedAny = false;
    double finishedRate = 0.0;

    // The solver's thread alone:
    std::unique_ptr<Work> last; ///< the last that could be solved
    std::string refusal;        ///< why the latest could not
    bool needsPrediction = false;

    std::thread thread;
};

} // namespace plugin
