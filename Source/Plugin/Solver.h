#pragma once

#include "HandOver.h"
#include "LiveSound.h"
#include "Messages.h"
#include "SolvedDrum.h"

#include "Place/Room.h"

#include <condition_variable>
#include <functional>
#include <mutex>
#include <thread>

namespace plugin
{

/** Takes a model to the audio thread and brings the replaced one back. */
struct Delivery
{
    std::shared_ptr<const engine::DrumModel> model;
};

/** Takes a room to the audio thread, null for none, and brings the replaced one back. */
struct RoomDelivery
{
    std::unique_ptr<place::Room> room;
    double sampleRate;
};

/** Solves the drum on its own thread when the settings have changed. Changes during a solve are handled together in the next. */
class Solver
{
public:
    /** @param whenSolved   called on the solver's thread when latest() has changed */
    Solver (const LiveSound&, Messages&, std::function<void()> whenSolved);
    ~Solver();

    /** Hz, 22 050 to 192 000. */
    void setSampleRate (double);

    /** Makes the solver look for changes now instead of within 10 ms. Not from the audio thread, except in an offline render. */
    void wake();

    /** Waits until all changes so far are solved or refused. For threads that may wait. */
    void waitUntilSolved();

    /** The models, for the audio thread. */
    HandOver<Delivery>& models() noexcept { return handOver; }

    /** The rooms that the drum is heard in, for the audio thread. */
    HandOver<RoomDelivery>& rooms() noexcept { return roomHandOver; }

    /** The latest drum with its prediction; nullptr before the first. Not for the audio thread. */
    std::shared_ptr<const SolvedDrum> latest() const;

    /** The latest model, at the sample rate set last; it may be newer than latest(). Not for the audio thread. */
    std::shared_ptr<const engine::DrumModel> latestModel() const;

    /** Longest T60 of the modes, s, at most 30, and the longest reverberation time of the place besides. Any thread. */
    double sustain() const noexcept
    {
        return longestSustain.load (std::memory_order_relaxed) + longestReverberation.load (std::memory_order_relaxed);
    }

    /** Models handed over so far. Any thread. */
    int solvedCount() const noexcept { return deliveries.load (std::memory_order_relaxed); }

private:
    struct Work;

    void run();
    bool hasNews() const noexcept;
    void solveOnce();
    void solve (const Values&, std::optional<int> playedNote, double rate);
    void fallBack (double rate);
    void updateRoom (const Values&, double rate);
    void deliver (const Work&);
    void predictFor (const Work&);
    void publish (std::shared_ptr<const SolvedDrum>);

    const LiveSound& sound;
    Messages& messages;
    std::function<void()> solved;
    HandOver<Delivery> handOver;
    HandOver<RoomDelivery> roomHandOver;

    mutable std::mutex mutex;
    std::condition_variable news, done;
    std::shared_ptr<const SolvedDrum> current;
    std::shared_ptr<const engine::DrumModel> model;
    bool shouldStop = false, isWoken = false;
    std::atomic<double> sampleRate{ 48000.0 };
    std::atomic<double> longestSustain{ 1.0 }, longestReverberation{ 0.0 };
    std::atomic<int> deliveries{ 0 };
    std::uint32_t finishedChanges = 0;
    bool hasFinishedAny = false;
    double finishedRate = 0.0;

    // Used by the solver's thread only:
    std::unique_ptr<Work> last; ///< the last drum that could be solved
    std::string refusal;        ///< why the latest settings could not be solved; empty if they could
    bool needsPrediction = false;
    Values roomValues{};   ///< of the latest room
    double roomRate = 0.0; ///< Hz; 0 before the first

    std::thread thread;
};

} // namespace plugin
