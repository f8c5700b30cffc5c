#pragma once

#include "CommandButton.h"

#include "Plugin/Processor.h"

#include <optional>

namespace editor
{

/** "G♯3 P4": the batter's tap note and the interval of these values; empty if they describe no drum. */
juce::String shortTuning (const plugin::Values&);

/** The tunings that are kept: up to eight, each a press away, also blind: in a new order without names. */
class KeptBar : public juce::Component
{
public:
    using Snapshot = plugin::LiveSound::Snapshot;

    explicit KeptBar (plugin::Processor&);
    ~KeptBar() override;

    std::function<void()> onKept;               ///< called after one was kept or cleared
    std::function<void (Snapshot)> onCompare;   ///< called with the tuning that changes count from
    std::function<void (bool isBlind)> onBlind; ///< called when names and figures must hide, and when they may show again
    std::function<void (const juce::String&)> onSay;

    bool isBlind() const noexcept { return ! order.empty(); }
    void setBlind (bool);

    /** Which kept tuning changes count from; none: the last change. */
    void setCompared (std::optional<Snapshot>);

    /** The button of the loudness match, which the main view runs. */
    juce::Button& matchButton() noexcept { return match; }

    /** Updates faces and enabled buttons. */
    void refresh();

    void paint (juce::Graphics&) override;
    void resized() override;

private:
    class Slot;
    std::vector<Snapshot> filled() const;
    void keepIn (Snapshot);
    void clear (Snapshot);
    void press (int place);
    void choose();
    void offer (int place);
    void offerComparison();

    plugin::Processor& processor;
    CommandButton keep, chooseThis, compare, match, blind;
    std::vector<std::unique_ptr<Slot>> slots;
    std::vector<Snapshot> order; ///< of a blind comparison: the tuning behind each button; empty if names are shown
    std::optional<int> pressed;  ///< button of a blind comparison that sounds
    std::optional<Snapshot> compared;
};

} // namespace editor
