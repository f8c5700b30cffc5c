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

/** What listening has come to. Immutable. */
struct ListeningReport
{
    enum class Stage
    {
        off,
        listening, ///< for the tap beside `next`
        workingOut ///< the head is made of what was heard
    };

    Stage stage = Stage::off;
    modal::HeadSide side = modal::HeadSide::batter;
    std::vector<std::optional<fitting::Estimate>> notes{}; ///< Hz, beside each lug, as that tap alone hears the head
    int next = -1;                                       ///< the lug whose turn it is, from 0; -1: every lug was heard
    listening::LiveLugCheck::Remark remark{};
    bool isSilent = false;                ///< nothing but zeros comes in
    std::optional<fitting::HeadFit> head{}; ///< once it was worked out

    int heardCount() const noexcept;
    double meanNote() const noexcept; ///< Hz, geometric mean of the notes; 0 before the first
};

/** Listens to the plugin's audio input during a lug check, on a thread of its own, which starts with the first check.
    The audio thread only copies. */
class Listener
{
public:
    /** @param whenChanged  called on the listener's thread when report() has changed */
    explicit Listener (std::function<void()> whenChanged);
    ~Listener();

    /** Audio thread: the input's next samples; `right` may be null. Copies while listening is on, and otherwise does nothing. */
    void hear (const float* left, const float* right, int frames) noexcept
    {
        if (isOn.load (std::memory_order_acquire))
            ring.write (left, right, frames);
    }

    // Any thread but the audio thread. What was asked is done soon, on the listener's thread, in order.

    /** Begins a lug check anew.
        @throws modal::InputError for a rate or a drum that cannot be */
    void start (const fitting::HeadFitSetup&, double sampleRate);
    void stop();   ///< what was heard stays
    void forget(); ///< what was heard too: it was heard at another sample rate
    void takeBack();
    void chooseLug (int lug); ///< from 0: the next to be tapped; while listening is off it stays off
    void goOn();              ///< listens on, from the lug whose turn it is
    void workOut();           ///< from what was heard so far; with the last lug this comes by itself

    std::shared_ptr<const ListeningReport> report() const;
    bool isListening() const noexcept { return isOn.load (std::memory_order_relaxed); }

    /** Largest sample that came in since the last call, full scale 1. */
    float takePeak() noexcept { return peak.exchange (0.0f, std::memory_order_relaxed); }

    /** Whether all that was heard and asked so far has been dealt with. */
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

    // The listener's thread alone:
    std::unique_ptr<listening::LiveLugCheck> lugCheck;
    modal::HeadSide side = modal::HeadSide::batter;
    std::optional<fitting::HeadFit> head;
    std::vector<float> taken = std::vector<float> (4096);
    bool wasSilent = false;

    std::thread thread;
};

} // namespace plugin
