#pragma once

#include "ChoiceRow.h"
#include "CommandButton.h"
#include "FoundBar.h"
#include "MapKeeper.h"
#include "MapPlot.h"
#include "MapTuner.h"
#include "RodPlanner.h"
#include "Scene.h"
#include "TextLine.h"
#include "WishField.h"

namespace editor
{

/** The page with the map of tunings: the map, wishes beside it, and the tunings that were found below, which a MIDI file dropped
   here plays. */
class MapView : public juce::Component, public juce::FileDragAndDropTarget
{
public:
    explicit MapView (plugin::Processor&);
    ~MapView() override;

    std::function<void()> onHear;                                         ///< plays a stroke
    std::function<void (const juce::String& what, bool isRefusal)> onSay; ///< for the hint line

    /** The map is computed while it is shown. */
    void setShown (bool);

    void setScene (const Scene&, modal::ConcertPitch);

    /** Moves the marks to the values as they are. */
    void refresh();

    MapPlot& mapPlot() noexcept { return plot; }
    MapKeeper& keeper() noexcept { return maps; }
    WishField& field (finding::Figure);
    WishField& keyField() noexcept { return *key; }
    WishField& tempoField() noexcept { return *tempo; }
    FoundBar& foundBar() noexcept { return found; }
    ChoiceRow& figureChoice() noexcept { return shading; }
    juce::String explanation() const { return why.text(); }
    bool isBusy() const noexcept { return maps.isBusy() || drawing.isBusy(); }

    /** Writes a tuning sheet with the plan for the rods, from where moves count. */
    void writeSheet (const juce::File&);

    bool isInterestedInFileDrag (const juce::StringArray& paths) override;
    void filesDropped (const juce::StringArray& paths, int, int) override;

    void paint (juce::Graphics&) override;
    void resized() override;
    void lookAndFeelChanged() override { draw(); }

private:
    void followDrum();
    void mapChanged();
    void readWishes();
    void draw();
    void showFound();
    void findPresets();
    void showMarks();
    void showExplanation();
    void tuneTo (int number);
    void followRods();
    void chooseSheetFile();
    FoundBar::Tuning described (std::size_t number) const;
    TuningSpot spotOf (const finding::FoundTuning&) const;
    juce::String read (TuningSpot) const;
    MapContent content() const;

    plugin::Processor& processor;
    modal::ConcertPitch pitch;
    MapTuner tuner;
    MapKeeper maps;
    MapPlot plot;
    ChoiceRow shading;
    CommandButton here;
    TextLine reading, why, startText;
    std::vector<std::pair<finding::Figure, std::unique_ptr<WishField>>> fields;
    std::unique_ptr<WishField> key, tempo;
    FoundBar found;
    plugin::RodTurns rodTurns; ///< from where moves count to the tuning that is set; none without a plan
    double ringWiresOn = 0.0;  ///< s, of the tuning that is set; 0: not known
    std::unique_ptr<juce::FileChooser> chooser;
    std::vector<MapPlot::Mark> presetMarks;
    std::shared_ptr<const finding::TuningMap> markedMap; ///< that they were looked up for
    std::size_t figure = 0;                              ///< of the shading
    const place::NoteAtListener* placeRead = nullptr;    ///< in which the wishes were read
    double beats = 100.0;                                ///< a minute, unless the song says
    bool isShown = false;
    int drawNumber = 0;
    Background drawing;
    RodPlanner planner;
};

} // namespace editor
