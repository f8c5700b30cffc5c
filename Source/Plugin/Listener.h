#pragma once

#include "InputRing.h"

#include "Listening/LiveLugCheck.h"

#include <condition_variable>
#include <functional>
#include <memory>
#include <mutex>
#include <thread>

namespace plugin
{

/** State and result of a lug check. Immutable. */
struct ListeningReport
{
    enum class Stage
    {
        off,
        listening, ///< waiting for the tap beside lug `next`
        analysing  ///< fitting the head to the taps
    };

    Stage stage = Stage::off;
    modal::HeadSide side = modal::HeadSide::batter;
    std::vector<std::optional<fitting::Estimate>> notes{}; ///< Hz, tap note beside each lug, from that tap alone
    int next = -1;                                         ///< the lug to tap next, from 0; -1: every lug was tapped
    listening::LiveLugCheck::Remark remark{};
    bool isSilent = false;                  ///< the input is all zeros
    std::optional<fitting::HeadFit> head{}; ///< after the analysis

    int heardCount() const noexcept;
    double meanNote() const noexcept; ///< Hz, geometric mean of the notes; 0 before the first
};

/** Listens to the plugin's audio input during a lug check. The audio thread copies samples; a thread of its own, started with the
    first check, analyses them. */
class Listener
{
public:
    /** @param whenChanged  called on the listener's thread when report() has changed */
    explicit Listener (std::function<void()> whenChanged);
    ~Listener();

    /** Audio thread: the input's next samples; `right` may be null. Copies them while listening is on, otherwise does nothing. */
    void hear (const float* left, const float* right, int frames) noexcept
    {
        if (isOn.load (std::memory_order_acquire))
            ring.write (left, right, frames);
    }

    // Any thread but the audio thread. Requests are carried out in order on the listener's thread.

    /** Starts a new lug check.
        @throws modal::InputError for a sample rate or a drum out of range */
    void start (const fitting::HeadFitSetup&, double sampleRate);
    void stop();   ///< keeps the taps
    void forget(); ///< stops and drops the taps, as when the sample rate changes
    void deleteLastTap();
    void chooseLug (int lug); ///< from 0: the lug to tap next; does not start listening
    void resume();            ///< listens again, from the lug to tap next
    void analyse();           ///< fits the taps so far; happens by itself after the last lug

    std::shared_ptr<const ListeningReport> report() const;
    bool isListening() const noexcept { return isOn.load (std::memory_order_relaxed); }

    /** Peak of the input since the last call, full scale 1. */
    float takePeak() noexcept { return peak.exchange (0.0f, std::memory_order_relaxed); }

    /** Whether all samples and requests so far have been processed. */
    bool isCaughtUp() const;

private:
    using Order = std::function<void()>;

    void ask (Order);
    void run();
    void collect();
    void listenOn();
    void finish();
    void publish (ListeningReport::Stage);

    InputRing ring;
    std::atomic<bool> isOn{ false };
    std::atomic<float> peak{ 0.0f };
    std::function<void()> changed;

    mutable std::mutex mutex;
    std::condition_variable news;
    std::vector<Order> orders;
    std::shared_ptr<const ListeningReport> latest = std::make_shared<const ListeningReport>();
    bool shouldStop = false, isBusy = false;

    // Used by the listener's thread only:
    std::unique_ptr<listening::LiveLugCheck> lugCheck;
    modal::HeadSide side = modal::HeadSide::batter;
    std::optional<fitting::HeadFit> head;
    std::vector<float> taken = std::vector<float> (4096);
    bool wasSilent = false;

    std::thread thread;
};

} // namespace plugin
