#pragma once

#include "Background.h"
#include "CommandButton.h"

#include "Finding/Find.h"
#include "Plugin/Processor.h"
#include "Score/Score.h"

#include <optional>

namespace editor
{

/** Buttons for the tunings that were found. All of them can be heard with a part, one after the other at equal loudness, or
   blind: in a hidden order until one is chosen. The takes are rendered beforehand, so the drum stays as it is and the audio
   thread only plays them. */
class FoundBar : public juce::Component, private juce::Timer
{
public:
    explicit FoundBar (plugin::Processor&);
    ~FoundBar() override;

    struct Tuning
    {
        juce::String face, name, tip;
        plugin::Values values{}; ///< of the drum tuned so
    };

    static constexpr int most = static_cast<int> (finding::mostFound); ///< tunings
    static constexpr int rowHeight = 28;                               ///< px, of each of two rows
    static constexpr const char* midiEndings = "mid;midi;smf";         ///< of files with a part

    /** What was rendered of other tunings is dropped. */
    void show (std::vector<Tuning>);

    std::function<void (int number)> onTune;   ///< called to tune the drum to one of them and to play it
    std::function<void (int number)> onChoose; ///< called when one has been chosen by ear
    std::function<void()> onRender;            ///< called before the tunings are rendered: show() them as the drum now is
    std::function<void()> onSheet;             ///< called to write a sheet of the tuning that is set
    std::function<void (const juce::String&, bool isRefusal)> onSay;
    std::function<juce::String()> whySilent; ///< why nothing can be heard; empty if it can

    /** Renders every tuning with this part, then plays them in turn. */
    void hear (const juce::File& midi);
    void hearPattern();

    void stop(); ///< ends what plays; what was rendered stays

    bool isRendering() const { return cancel != nullptr; }
    bool isReady() const noexcept { return ! takes.empty(); }        ///< the part can be heard with each tuning
    std::optional<int> sounding() const noexcept { return pressed; } ///< the button whose tuning sounds or sounded last

    juce::Button& tuningButton (int number) { return *buttons[static_cast<std::size_t> (number)]; }
    juce::Button& hearButton() noexcept { return hearAll; }
    juce::Button& blindButton() noexcept { return blind; }
    juce::Button& chooseButton() noexcept { return choose; }
    juce::Button& sheetButton() noexcept { return sheet; }

    void resized() override;

private:
    using Takes = std::vector<std::shared_ptr<const plugin::Clip>>;

    void timerCallback() override;
    void hearCommand();
    void offerParts();
    void chooseFile();
    void render (score::Score, const juce::String& remark);
    void take (Takes);
    void beginInTurn();
    void press (int place);
    void play (int place);
    void forget();
    void setOrder();
    void chooseSounding();
    void refresh();
    bool refuseIfSilent();
    bool isPlaying() const { return pressed && processor.isHearing(); }
    void say (const juce::String&, bool isRefusal = false);

    plugin::Processor& processor;
    std::vector<Tuning> tunings;
    std::vector<std::unique_ptr<CommandButton>> buttons;
    CommandButton hearAll, blind, choose, sheet;
    double progress = 0.0;
    juce::ProgressBar progressBar{ progress };
    std::unique_ptr<juce::FileChooser> chooser;

    Takes takes;                    ///< by tuning
    double takesRate = 0.0;         ///< Hz
    std::vector<std::size_t> order; ///< the tuning behind each button
    std::optional<int> pressed;     ///< button
    bool isInTurn = false;          ///< the next follows when this one ends

    std::shared_ptr<std::atomic<bool>> cancel; ///< of the render that runs; null if none
    std::shared_ptr<std::atomic<double>> share;
    Background rendering; ///< last: ends before what it delivers to
};

} // namespace editor
