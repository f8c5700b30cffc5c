#pragma once

#include "Background.h"
#include "Scene.h"

#include "Plugin/Processor.h"

#include <optional>

namespace editor
{

/** Keeps the scene in step with the processor: the drum that was solved last, what playing it tells, and what to compare with.

    Slow work runs on a background thread; everything else is for the message thread. */
class SceneKeeper : private juce::ChangeListener, private juce::Timer
{
public:
    explicit SceneKeeper (plugin::Processor&);
    ~SceneKeeper() override;

    const Scene& scene() const noexcept { return current; }

    using Snapshot = plugin::LiveSound::Snapshot;

    /** The kept tuning that is `before`; none: it is the tuning before the last change. */
    std::optional<Snapshot> reference() const noexcept { return compared; }

    /** Compares with this kept tuning from now on; with the first one while it is empty. */
    void setReference (Snapshot);

    /** Call after a tuning was kept or cleared. */
    void refreshSnapshot();

    /** During a trial each drum is compared with the original one; afterwards the original comparison is restored. */
    void setTrying (bool);

    std::function<void()> onChange;

    /** True while a calculation is running. */
    bool isBusy() const noexcept { return background.isBusy() || isTimerRunning(); }

    /** Runs `work` on the background thread, then `deliver` on the message thread if this object still exists. */
    template <typename Work, typename Deliver>
    void later (Work work, Deliver deliver)
    {
        background.run (std::move (work), std::move (deliver));
    }

private:
    void changeListenerCallback (juce::ChangeBroadcaster*) override;
    void timerCallback() override;
    void take (std::shared_ptr<const plugin::SolvedDrum>);
    std::optional<Snapshot> kept() const noexcept;
    void tell() const;

    plugin::Processor& processor;
    Scene current;
    std::shared_ptr<const plugin::SolvedDrum> latest;
    /** The last drum that was played through; a drag passes over many that are not. */
    Scene previous;
    /** The scene at the start of a trial. */
    struct Tried
    {
        Scene scene;
        bool wasHeard;
    };
    std::optional<Tried> tried;
    bool isHeard = false; ///< whether the current drum has been played through
    Snapshot wanted = plugin::LiveSound::a;
    std::optional<Snapshot> compared;
    std::uint32_t snapshotNumber = 0;
    double snapshotRate = 0.0; ///< Hz, at which it was played
    Background background; ///< last, so that it ends before what its jobs deliver to
};

} // namespace editor
