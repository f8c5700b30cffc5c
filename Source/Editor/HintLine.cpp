#include "HintLine.h"

#include "Look.h"
#include "Strings.h"

namespace editor
{
namespace
{

constexpr int hintsPerSecond = 8;
constexpr juce::uint32 messageTime = 6000; // ms

/** Tooltip of the component or of the nearest parent that has one. */
juce::String tipOf (juce::Component* component, const juce::Component& outermost)
{
    for (; component != nullptr && component != &outermost; component = component->getParentComponent())
        if (auto* client = dynamic_cast<juce::TooltipClient*> (component))
            if (const auto tip = client->getTooltip(); tip.isNotEmpty())
                return component->getTitle().isEmpty() || tip.startsWith (component->getTitle())
                           ? tip
                           : component->getTitle() + ". " + tip;
    return {};
}

} // namespace

HintLine::HintLine (juce::Component& within) : parent (within)
{
    setInterceptsMouseClicks (false, false);
    startTimerHz (hintsPerSecond);
}

void HintLine::say (const juce::String& message, bool isRefusal)
{
    holdsUntil = juce::Time::getMillisecondCounter() + messageTime;
    show (message, isRefusal);
    juce::AccessibilityHandler::postAnnouncement (message, juce::AccessibilityHandler::AnnouncementPriority::medium);
}

void HintLine::endRefusal()
{
    if (! isWarning)
        return;
    holdsUntil = 0;
    show (explained(), false);
}

/** Tooltip at the mouse or at the keyboard focus, whichever moved last. */
juce::String HintLine::explained()
{
    const auto mouse = juce::Desktop::getInstance().getMainMouseSource();
    auto* under = mouse.getComponentUnderMouse();
    auto* withKeyboard = juce::Component::getCurrentlyFocusedComponent();
    if (const auto place = mouse.getScreenPosition(); place != mousePlace)
    {
        mousePlace = place;
        followsKeyboard = false;
    }
    else if (withKeyboard != focused)
        followsKeyboard = true;
    focused = withKeyboard;
    for (auto* at : { followsKeyboard ? withKeyboard : under, followsKeyboard ? under : withKeyboard })
        if (at != nullptr && parent.isParentOf (at))
            if (const auto tip = tipOf (at, parent); tip.isNotEmpty())
                return tip;
    return strings::caution;
}

void HintLine::timerCallback()
{
    const auto tip = explained();
    if (juce::Time::getMillisecondCounter() >= holdsUntil)
        show (tip, false);
}

void HintLine::show (const juce::String& text, bool isRefusal)
{
    if (text == words && isRefusal == isWarning)
        return;
    words = text;
    isWarning = isRefusal;
    setTitle (words);
    repaint();
}

void HintLine::paint (juce::Graphics& g)
{
    const auto& theme = themeOf (*this);
    g.setColour (isWarning ? theme.caution : theme.quiet);
    g.setFont (fonts::text());
    g.drawFittedText (words, getLocalBounds(), juce::Justification::centredLeft, 1, 0.65f);
}

std::unique_ptr<juce::AccessibilityHandler> HintLine::createAccessibilityHandler()
{
    return std::make_unique<juce::AccessibilityHandler> (*this, juce::AccessibilityRole::staticText);
}

} // namespace editor
