#include "ValueControl.h"

#include "Look.h"

#include <cmath>

namespace editor
{
namespace
{

class NumberAndText : public juce::AccessibilityValueInterface
{
public:
    explicit NumberAndText (ValueControl& controlToRead) : control (controlToRead) {}

    bool isReadOnly() const override { return false; }
    double getCurrentValue() const override { return control.binding().get(); }
    juce::String getCurrentValueAsString() const override { return control.valueText(); }
    void setValue (double value) override { control.binding().set (value); }
    void setValueAsString (const juce::String& text) override { control.typeIn (text); }
    AccessibleValueRange getRange() const override
    {
        return { { control.binding().low, control.binding().high }, control.binding().fineStep };
    }

private:
    ValueControl& control;
};

} // namespace

ValueControl::ValueControl (ControlText text, ValueBinding binding) : words (std::move (text)), bound (std::move (binding))
{
    setTitle (words.name);
    setTooltip (words.tip);
    setHelpText (words.tip);
    setWantsKeyboardFocus (true);
    setMouseClickGrabsKeyboardFocus (true);
}

ValueControl::~ValueControl() = default;

juce::String ValueControl::typeIn (const juce::String& typed)
{
    const auto refusal = bound.type (typed);
    repaint();
    if (refusal.isNotEmpty() && onRefused)
        onRefused (refusal);
    return refusal;
}

void ValueControl::openEntry()
{
    if (entry != nullptr)
        return;
    entry = std::make_unique<juce::TextEditor> (words.name);
    entry->setTitle (words.name);
    entry->setTooltip (words.tip);
    entry->setFont (fonts::text());
    entry->setJustification (juce::Justification::centred);
    entry->setText (valueText(), false);
    entry->onReturnKey = [this] { closeEntry (true); };
    entry->onEscapeKey = [this] { closeEntry (false); };
    entry->onFocusLost = [this] { closeEntry (true); };

    // A child of the parent, so that a narrow handle does not clip it.
    auto* parent = getParentComponent();
    if (parent == nullptr)
        return;
    auto area = entryArea() + getPosition();
    // Covers a handle; in a large view it is one line.
    area = area.withSizeKeepingCentre (juce::jmax (area.getWidth(), 92),
                                       area.getHeight() <= 44 ? juce::jmax (area.getHeight(), 24) : 24);
    entry->setBounds (area.constrainedWithin (parent->getLocalBounds()));
    parent->addAndMakeVisible (*entry);
    entry->selectAll();
    entry->grabKeyboardFocus();
}

void ValueControl::closeEntry (bool keeps)
{
    if (entry == nullptr)
        return;
    // The editor calls this, so it must outlive the call.
    std::shared_ptr<juce::TextEditor> closing (std::move (entry));
    closing->onFocusLost = nullptr;
    const auto typed = closing->getText();
    const bool hadFocus = closing->hasKeyboardFocus (true);
    if (hadFocus)
        grabKeyboardFocus();
    closing->setVisible (false);
    juce::MessageManager::callAsync ([closing] {});
    if (keeps && typed != valueText())
        typeIn (typed);
}

bool ValueControl::keyPressed (const juce::KeyPress& key)
{
    const auto isKey = [&] (int code) { return key.getKeyCode() == code; };
    if (isKey (juce::KeyPress::returnKey) || isKey (juce::KeyPress::F2Key))
    {
        openEntry();
        return true;
    }
    const double step = key.getModifiers().isShiftDown() ? bound.fineStep : bound.step;
    double value = bound.get();
    if (isKey (juce::KeyPress::upKey) || isKey (juce::KeyPress::rightKey))
        value += step;
    else if (isKey (juce::KeyPress::downKey) || isKey (juce::KeyPress::leftKey))
        value -= step;
    else if (isKey (juce::KeyPress::homeKey))
        value = bound.low;
    else if (isKey (juce::KeyPress::endKey))
        value = bound.high;
    else
        return false;
    if (key.getModifiers().isCommandDown())
        return false;
    beginChange();
    change (value);
    endChange();
    return true;
}

void ValueControl::mouseDoubleClick (const juce::MouseEvent&)
{
    openEntry();
}

void ValueControl::focusGained (FocusChangeType)
{
    repaint();
}

void ValueControl::focusLost (FocusChangeType)
{
    repaint();
}

void ValueControl::beginChange()
{
    if (! isChanging)
        bound.begin();
    isChanging = true;
}

void ValueControl::endChange()
{
    if (isChanging)
        bound.end();
    isChanging = false;
}

void ValueControl::change (const ValueBinding& changed, double value)
{
    const double asked = juce::jlimit (changed.low, changed.high, value);
    changed.set (asked);
    repaint();
    // More than rounding.
    if (changed.limits && onRefused && std::abs (changed.get() - asked) > 0.02)
        onRefused (changed.limits());
}

std::unique_ptr<juce::AccessibilityHandler> ValueControl::createAccessibilityHandler()
{
    return std::make_unique<juce::AccessibilityHandler> (
        *this, juce::AccessibilityRole::slider,
        juce::AccessibilityActions().addAction (juce::AccessibilityActionType::press, [this] { openEntry(); }),
        juce::AccessibilityHandler::Interfaces{ std::make_unique<NumberAndText> (*this) });
}

} // namespace editor
