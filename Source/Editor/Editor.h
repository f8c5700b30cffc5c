#pragma once

#include "Look.h"
#include "MainView.h"

namespace editor
{

/** The plugin's window: keeps the size within limits, draws larger in larger windows, and remembers nothing of the drum itself.
 */
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
