#pragma once

#include "Background.h"

#include "Finding/Find.h"
#include "Plugin/Processor.h"

namespace editor
{

/** Keeps the map of tunings in step with the drum, and looks for the tunings that are wished for. Slow work runs on a thread of
   its own. Message thread. */
class MapKeeper
{
public:
    explicit MapKeeper (plugin::Processor& p) : processor (p) {}
    ~MapKeeper();

    /** Computes the map if the drum is another than the map's; a rough one first. Call when drum or place may have changed. */
    void follow();

    /** What to look for, and which figure the map is shaded by; strokes are played as soon as either needs it. */
    void ask (std::vector<finding::Wish>, finding::Figure shaded);

    /** Plays the strokes of the map so from now on. @param speed  m/s  @param place  share of the radius */
    void setStroke (double speed, double place);
    const finding::Hand& player() const noexcept { return hand; }

    /** Whether two sets of values differ in nothing but the tuning. */
    static bool isSameDrum (const plugin::Values&, const plugin::Values&);

    /** Counts moves of the heads from the present tuning from now on. */
    void startHere();

    const std::shared_ptr<const finding::TuningMap>& map() const noexcept { return ground.map; }
    const std::shared_ptr<const finding::PlayedMap>& played() const noexcept { return ground.played; }
    /** How long a note lasts at the listener; null without a place. */
    const std::shared_ptr<const place::NoteAtListener>& inPlace() const noexcept { return heard; }
    const finding::MapArea& prudentArea() const noexcept { return ground.prudent; }
    const std::vector<finding::Wish>& wishes() const noexcept { return wished; }
    const std::optional<finding::Present>& start() const noexcept { return present; }
    /** N/m, of both heads at start(); none before there is a map, or if this drum cannot have those notes. */
    const std::optional<modal::Tensions>& startTensions() const noexcept { return startHeads; }

    const finding::FindResult& found() const noexcept { return result; }
    juce::String refusal() const { return trouble; } ///< why there is no map; empty if there is one, or will be
    bool isBusy() const noexcept { return background.isBusy(); }

    std::function<void()> onChange;

private:
    /** All that belongs to one drum. */
    struct Ground
    {
        std::shared_ptr<const modal::DrumTuner> tuner;
        std::shared_ptr<const modal::DrumSolver> solver;
        std::shared_ptr<const finding::TuningMap> map;
        std::shared_ptr<const finding::PlayedMap> played;
        finding::MapArea prudent{}; ///< both heads below half of their yield strength
        juce::String refusal;
        double step = 0.0; ///< cents between the map's tunings
    };
    using Cancel = std::shared_ptr<std::atomic<bool>>;

    static void renew (Cancel&);
    void followPlace();
    bool wantsCarry() const;
    void makeMap (double step);
    void forgetStrokes();
    void playStrokes();
    void look();
    bool isFine() const;
    void findStart();
    void tell() const;

    plugin::Processor& processor;
    std::optional<plugin::Values> drumOfMap; ///< the parameters that describe shell and heads
    plugin::Values fittingsOfMap{};          ///< and those of wires, stick and hoops
    plugin::Values placeOfMap{};             ///< and of the place
    std::shared_ptr<const place::NoteAtListener> heard;
    std::optional<plugin::DrumRequest> request;
    Ground ground;
    std::vector<finding::Wish> wished;
    finding::Hand hand; ///< whose strokes are played
    finding::Figure shaded = finding::Figure::drumNote;
    bool isPlaying = false;
    std::optional<finding::Present> present;
    std::optional<modal::Tensions> startHeads;
    finding::FindResult result;
    juce::String trouble;
    int lookNumber = 0;
    Cancel cancel = std::make_shared<std::atomic<bool>> (false);        ///< of the drum's map
    Cancel cancelStrokes = std::make_shared<std::atomic<bool>> (false); ///< of its played strokes
    Background background;                                              ///< last, so that it ends before what its jobs deliver to
};

} // namespace editor
