#pragma once

#include <juce_events/juce_events.h>

namespace editor
{

/** Slow work on a thread of low priority, one job after another. Message thread. */
class Background
{
public:
    Background() = default;

    /** Waits for the job that is running; its result is dropped. */
    ~Background()
    {
        jobs.removeAllJobs (true, -1);
        masterReference.clear();
    }

    /** Runs `work`, then `deliver` with its result on the message thread if this object still exists. */
    template <typename Work, typename Deliver>
    void run (Work work, Deliver deliver)
    {
        ++pending;
        jobs.addJob (
            [weak = juce::WeakReference<Background> (this), work = std::move (work), deliver = std::move (deliver)]
            {
                auto result = work();
                juce::MessageManager::callAsync (
                    [weak, deliver, result = std::move (result)]() mutable
                    {
                        if (weak == nullptr)
                            return;
                        --weak->pending;
                        deliver (std::move (result));
                    });
            });
    }

    bool isBusy() const noexcept { return pending > 0; }

private:
    int pending = 0;
    juce::ThreadPool jobs{ 1, 0, juce::Thread::Priority::low };

    JUCE_DECLARE_WEAK_REFERENCEABLE (Background)
};

} // namespace editor
