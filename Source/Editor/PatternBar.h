#pragma once

#include "DragButton.h"
#include "DragOut.h"
#include "ParameterRow.h"
#include "ValueBox.h"

#include "Plugin/Processor.h"

namespace editor
{

/** The pattern: which, how fast, playing, and on its way into files. */
class PatternBar : public juce::Component, private juce::Timer
{
public:
    explicit PatternBar (plugin::Processor&);
    ~PatternBar() override;

    std::function<void (const juce::String&)> onSay;
    /** Calls back for refused input. */
    void setOnRefused (std::function<void (const juce::String&)> onRefused) { tempo.onRefused = std::move (onRefused); }

    DragOut& dragOut() noexcept { return dragging; }

    /** Drags one stroke out, as audio or as MIDI. */
    void dragStroke (juce::Component& source, DragOut::Kind, const juce::String& name, const engine::Stroke&);

    /** Renders mix, microphones and MIDI part of the pattern, so many times over, to files beside `mix`. */
    void render (int times, const juce::File& mix);
    bool isRendering() const { return writer.isRunning(); }

    void refresh();
    void resized() override;

private:
    void timerCallback() override;
    void offerRender();
    void chooseFile (int times);
    void dragPattern (juce::Component& source, DragOut::Kind);
    std::optional<plugin::TakeRequest> patternTake (int times);
    void showRendering (bool);
    void say (const juce::String&);

    plugin::Processor& processor;
    ParameterRow pattern, patternOn;
    ValueBox tempo;
    CommandButton renderButton;
    DragButton dragAudio, dragMidi;
    double progress = 0.0;
    juce::ProgressBar progressBar{ progress };
    std::unique_ptr<juce::FileChooser> chooser;
    plugin::TakeWriter writer;
    plugin::TakeFiles files; ///< of the render
    DragOut dragging;
};

} // namespace editor
