#pragma once

#include "ChoiceRow.h"
#include "NamedPart.h"
#include "ParameterRow.h"

#include "Plugin/Processor.h"

namespace editor
{

/** All parameters in groups, on a form that scrolls. Parts are chosen by name; their numbers are folded away below. */
class SetUpView : public juce::Component
{
public:
    explicit SetUpView (plugin::Processor&, std::function<void (const juce::String&)> onRefused);
    ~SetUpView() override;

    /** Repaints what has changed; shows as many lugs as the drum has. */
    void refresh();

    /** The row of a parameter; unfolds its group. */
    ParameterRow* rowOf (plugin::Parameter);

    /** The row of a part chosen by name, or nullptr. */
    ChoiceRow* partNamed (const juce::String& name);

    void resized() override;

private:
    struct Group;
    class Form;
    plugin::Processor& processor;
    std::unique_ptr<Form> form;
    juce::Viewport viewport;
};

} // namespace editor
