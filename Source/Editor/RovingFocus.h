#pragma once

#include <juce_gui_basics/juce_gui_basics.h>

namespace editor
{

/** Makes a row of components one stop of the Tab key: left and right arrow move between them. */
class RovingFocus : private juce::KeyListener, private juce::MouseListener
{
public:
    ~RovingFocus() override;

    /** The component must outlive this. The first one added is where the Tab key arrives. */
    void add (juce::Component&);

    /** The Tab key arrives at the first component again: call when others were hidden. */
    void restart();

private:
    bool keyPressed (const juce::KeyPress&, juce::Component* origin) override;
    void mouseUp (const juce::MouseEvent&) override;
    void moveTo (juce::Component&);

    std::vector<juce::Component*> members;
};

} // namespace editor
