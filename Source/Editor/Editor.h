#pragma once

#include "Look.h"
#include "MainView.h"

namespace editor
{

/** The plugin's window: limits its size and scales the view in large windows. The drum's state is the processor's. */
class Editor : public juce::AudioProcessorEditor
{
public:
    explicit Editor (plugin::Processor&);
    ~Editor() override;

    void setTheme (const Theme&);
    MainView& view() noexcept { return main; }

    void paint (juce::Graphics&) override {} // covered by the view
    void resized() override;

private:
    Look look;
    MainView main;
};

/** For plugin::Processor's constructor. */
std::unique_ptr<juce::AudioProcessorEditor> makeEditor (plugin::Processor&);

} // namespace editor
