#include "RovingFocus.h"

#include <algorithm>

namespace editor
{

RovingFocus::~RovingFocus()
{
    for (auto* member : members)
    {
        member->removeKeyListener (this);
        member->removeMouseListener (this);
    }
}

void RovingFocus::add (juce::Component& member)
{
    member.setWantsKeyboardFocus (members.empty());
    member.addKeyListener (this);
    member.addMouseListener (this, false);
    members.push_back (&member);
}

void RovingFocus::restart()
{
    for (auto* member : members)
        member->setWantsKeyboardFocus (member == members.front());
}

bool RovingFocus::keyPressed (const juce::KeyPress& key, juce::Component* origin)
{
    const int step = key == juce::KeyPress (juce::KeyPress::rightKey)  ? 1
                     : key == juce::KeyPress (juce::KeyPress::leftKey) ? -1
                                                                       : 0;
    if (step == 0)
        return false;
    std::vector<juce::Component*> shown;
    std::copy_if (members.begin(), members.end(), std::back_inserter (shown), [] (auto* member) { return member->isVisible(); });
    const auto at = std::find (shown.begin(), shown.end(), origin);
    if (at == shown.end())
        return false;
    const auto count = static_cast<int> (shown.size()), next = (static_cast<int> (at - shown.begin()) + step + count) % count;
    moveTo (*shown[static_cast<std::size_t> (next)]);
    return true;
}

void RovingFocus::mouseUp (const juce::MouseEvent& event)
{
    moveTo (*event.eventComponent);
}

void RovingFocus::moveTo (juce::Component& member)
{
    member.setWantsKeyboardFocus (true);
    member.grabKeyboardFocus();
    for (auto* other : members)
        other->setWantsKeyboardFocus (other == &member);
}

} // namespace editor
