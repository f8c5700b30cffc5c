#pragma once

#include "CommandButton.h"

#include "Modal/pitch/Note.h"
#include "Plugin/Listener.h"

#include <deque>

namespace editor
{

/** The spectrogram of the audio input as it runs, or of a file, with the partials of the taps drawn over it and the notes of the
    last one beside it. */
class SpectrogramView : public juce::Component, public juce::SettableTooltipClient
{
public:
    explicit SpectrogramView (plugin::Listener&);
    ~SpectrogramView() override;

    /** Partials and, if a file was heard, its picture. */
    void show (const plugin::ListeningReport&, modal::ConcertPitch);

    static constexpr int buttonWidth = 72;

    /** Where a button of the page may stand, left of the pause button. */
    juce::Rectangle<int> besidePause() const { return pause.getBounds().translated (-buttonWidth - 4, 0); }

    void setPaused (bool);
    juce::Button& pauseButton() noexcept { return pause; }

    /** "A#3 +3, 233.5 Hz" of each partial that is labelled, from low to high. */
    const juce::StringArray& labels() const noexcept { return labelTexts; }

    int columnsShown() const noexcept { return static_cast<int> (history.size()); }
    int framesDrawn() const noexcept { return frames; }

    void paint (juce::Graphics&) override;
    void resized() override;
    void lookAndFeelChanged() override;
    std::unique_ptr<juce::AccessibilityHandler> createAccessibilityHandler() override;

private:
    struct Label
    {
        double hertz;
        juce::String text; ///< note and cents
    };

    void update();
    void append (const plugin::InputReader::Columns&);
    bool setRange();
    void makePalette();
    void drawColumn (juce::Image::BitmapData&, const listening::LevelColumn&, int x) const;
    void drawAll();
    void updateLabels();
    void drawAxes (juce::Graphics&) const;
    void drawPartials (juce::Graphics&, const listening::HeardPartials&) const;
    void drawLabels (juce::Graphics&) const;
    juce::Rectangle<int> plot() const;
    float yOf (double hertz) const;
    float xOf (double time) const;
    double endTime() const;
    double timeStep() const;

    plugin::Listener& listener;
    CommandButton pause;
    std::deque<listening::LevelColumn> history; ///< as many as the plot is wide
    std::int64_t next = 0;                      ///< number of the column after the last of `history`
    juce::Image image;                          ///< of `history`, a pixel a column and row
    double top = -20.0;                         ///< dB of full scale drawn strongest
    std::array<juce::PixelARGB, 256> palette{}; ///< by level
    std::vector<listening::HeardPartials> partials; ///< the loudest of each tap, from low to high
    std::shared_ptr<const plugin::RecordedColumns> recorded;
    modal::ConcertPitch pitch;
    std::vector<Label> shownLabels;
    juce::StringArray labelTexts;
    bool paused = false, isWatching = false;
    int frames = 0;
    juce::VBlankAttachment refresh;
};

} // namespace editor
