#pragma once

#include "Animator.h"
#include "AuditionBar.h"
#include "DecayView.h"
#include "HeadView.h"
#include "HeaderBar.h"
#include "HintLine.h"
#include "KeptBar.h"
#include "LadderView.h"
#include "Layout.h"
#include "ListenView.h"
#include "LoudnessMatch.h"
#include "MapView.h"
#include "PatternBar.h"
#include "ResultView.h"
#include "SceneKeeper.h"
#include "SectionView.h"
#include "SetUpView.h"
#include "SpectrumView.h"
#include "StrikeWatcher.h"

namespace editor
{

/** All views of the window and the connections between them. */
class MainView : public juce::Component, private juce::Timer
{
public:
    explicit MainView (plugin::Processor&);
    ~MainView() override;

    std::function<void()> onTheme; ///< called to change the theme

    void setPage (Page);
    Page page() const noexcept { return shownPage; }
    void setDark (bool isDark) { header.setDark (isDark); }

    /** Highlights a mode in all views; -1 for none. */
    void highlightMode (int mode);
    int highlightedMode() const noexcept { return highlight; }

    void strike (const engine::Stroke&);

    SceneKeeper& keeper() noexcept { return scenes; }
    Animator& animator() noexcept { return motion; }
    LadderView& ladderView() noexcept { return ladder; }
    HeadView& batterView() noexcept { return batter; }
    HeadView& resonantView() noexcept { return resonant; }
    SectionView& sectionView() noexcept { return section; }
    ResultView& resultView() noexcept { return result; }
    SpectrumView& spectrumView() noexcept { return spectrum; }
    DecayView& decayView() noexcept { return decay; }
    SetUpView& setUpView() noexcept { return setUp; }
    ListenView& listenView() noexcept { return listen; }
    MapView& mapView() noexcept { return map; }
    AuditionBar& auditionBar() noexcept { return audition; }
    PatternBar& patternBar() noexcept { return patterns; }
    HeaderBar& headerBar() noexcept { return header; }
    KeptBar& keptBar() noexcept { return kept; }
    HintLine& hintLine() noexcept { return hint; }

    void paint (juce::Graphics&) override;
    void resized() override;
    bool keyPressed (const juce::KeyPress&) override;

private:
    void timerCallback() override;
    void showScene();
    void refreshValues();
    void refuse (const juce::String& why);
    void watchAudio();
    const char* whySilent() const;
    std::vector<ValueBinding> lugBindings (modal::HeadSide) const;
    ValueBinding highlightBinding();

    plugin::Processor& processor;
    SceneKeeper scenes;
    StrikeWatcher strikes;
    Animator motion;
    LoudnessMatch loudness;

    HeaderBar header;
    SectionView section;
    HeadView batter, resonant;
    MapView map;
    SetUpView setUp;
    ListenView listen;
    LadderView ladder;
    ResultView result;
    SpectrumView spectrum;
    DecayView decay;
    KeptBar kept;
    AuditionBar audition;
    PatternBar patterns;
    HintLine hint;
    juce::Label blindNotice;

    Page shownPage = Page::heads;
    int highlight = -1;
    plugin::Values shownValues{};
    std::uint64_t shownMessage = 0;
    bool hasShownValues = false;
    std::uint32_t seenBlocks = 0;
    int looksWithoutBlock = 0;
    bool isPlayed = true; ///< the host asks for audio
};

} // namespace editor
