#pragma once

#include "ParameterRow.h"

#include "Plugin/Processor.h"

namespace editor
{

/** Everything that can be set, in groups, on a sheet that scrolls. */
class SetUpView : public juce::Component
{
public:
    explicit SetUpView (plugin::Processor&, std::function<void (const juce::String&)> onRefused);
    ~SetUpView() override;

    /** Repaints what has changed; shows as many lugs as the drum has. */
    void refresh();

    ParameterRow* rowOf (plugin::Parameter);
    void resized() override;

private:
    class Sheet;
    plugin::Processor& processor;
    std::unique_ptr<Sheet> sheet;
    juce::Viewport viewport;
};

} // namespace editor
