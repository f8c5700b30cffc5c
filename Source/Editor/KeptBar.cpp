#include "KeptBar.h"

#include "NoteText.h"
#include "Strings.h"

#include "Modal/InputError.h"
#include "Plugin/DrumRequest.h"
#include "Plugin/Morph.h"

#include <algorithm>
#include <cmath>
#include <random>

namespace editor
{
namespace
{
using plugin::LiveSound;

juce::String shortInterval (double semitones)
{
    for (const auto& named : modal::namedIntervals())
        if (std::abs (named.semitones - semitones) < 0.05)
            return named.shortName;
    return withSign (semitones, 1) + " st";
}

juce::String letterOf (LiveSound::Snapshot which)
{
    return plugin::Processor::nameOf (which);
}

} // namespace

juce::String shortTuning (const plugin::Values& values)
{
    try
    {
        const auto request = plugin::requestOf (values);
        const auto* notes = std::get_if<modal::ByTapNotes> (&request.tuning.target);
        if (notes == nullptr)
            return {};
        const auto note = noteName (notes->batter, request.tuning.concertPitch);
        return request.drum.hasResonantHead() ? note + " " + shortInterval (12.0 * std::log2 (notes->resonant / notes->batter))
                                              : note;
    }
    catch (const modal::InputError&)
    {
        return {};
    }
}

/** A kept tuning. A right click or the menu key offers to replace or clear it. */
class KeptBar::Slot : public CommandButton
{
public:
    Slot (std::function<void()> action, std::function<void()> menu)
        : CommandButton ({ "", "", "" }, std::move (action)), openMenu (std::move (menu))
    {
    }

    void mouseDown (const juce::MouseEvent& e) override
    {
        if (e.mods.isPopupMenu())
            openMenu();
        else
            CommandButton::mouseDown (e);
    }

    bool keyPressed (const juce::KeyPress& key) override
    {
        if (key != juce::KeyPress::deleteKey && key != juce::KeyPress::backspaceKey &&
            key != juce::KeyPress (juce::KeyPress::F10Key, juce::ModifierKeys::shiftModifier, 0))
            return CommandButton::keyPressed (key);
        openMenu();
        return true;
    }

private:
    std::function<void()> openMenu;
};

KeptBar::KeptBar (plugin::Processor& p)
    : processor (p), keep (strings::keepTuning,
                           [this]
                           {
                               for (std::size_t i = 0; i < LiveSound::snapshotCount; ++i)
                                   if (const auto which = static_cast<Snapshot> (i); ! processor.hasSnapshot (which))
                                       return keepIn (which);
                           }),
      chooseThis (strings::chooseTuning, [this] { choose(); }), compare (strings::compareWith, [this] { offerComparison(); }),
      match (strings::matchLoudness, {}), blind (strings::blind, [this] { setBlind (! isBlind()); })
{
    setTitle (strings::keptTitle);
    setFocusContainerType (FocusContainerType::focusContainer);
    match.setClickingTogglesState (true);
    addAndMakeVisible (keep);
    for (int place = 0; place < static_cast<int> (LiveSound::snapshotCount); ++place)
    {
        slots.push_back (std::make_unique<Slot> ([this, place] { press (place); }, [this, place] { offer (place); }));
        addChildComponent (*slots.back());
    }
    addChildComponent (chooseThis);
    for (auto* button : { &compare, &match, &blind })
        addAndMakeVisible (button);
    refresh();
}

KeptBar::~KeptBar() = default;

std::vector<KeptBar::Snapshot> KeptBar::filled() const
{
    std::vector<Snapshot> found;
    for (std::size_t i = 0; i < LiveSound::snapshotCount; ++i)
        if (const auto which = static_cast<Snapshot> (i); processor.hasSnapshot (which))
            found.push_back (which);
    return found;
}

void KeptBar::keepIn (Snapshot which)
{
    processor.storeSnapshot (which);
    if (onKept)
        onKept();
    refresh();
}

void KeptBar::clear (Snapshot which)
{
    processor.clearSnapshot (which);
    if (onKept)
        onKept();
    refresh();
}

void KeptBar::press (int place)
{
    if (isBlind())
        pressed = place;
    const auto index = static_cast<std::size_t> (place);
    if (const auto shown = isBlind() ? order : filled(); index < shown.size())
        processor.recallSnapshot (shown[index]);
    refresh();
}

void KeptBar::setBlind (bool shouldHide)
{
    if (shouldHide == isBlind())
        return;
    order = shouldHide ? filled() : std::vector<Snapshot>();
    std::shuffle (order.begin(), order.end(), std::mt19937 (std::random_device{}()));
    pressed.reset();
    if (onBlind)
        onBlind (isBlind());
    refresh();
}

void KeptBar::choose()
{
    if (! pressed)
        return;
    const auto chosen = order[static_cast<std::size_t> (*pressed)];
    setBlind (false);
    if (onSay)
        onSay (strings::youChose (letterOf (chosen), shortTuning (processor.snapshot (chosen))));
}

void KeptBar::offer (int place)
{
    const auto shown = filled();
    if (isBlind() || static_cast<std::size_t> (place) >= shown.size())
        return;
    const auto which = shown[static_cast<std::size_t> (place)];
    juce::PopupMenu menu;
    const juce::Component::SafePointer<KeptBar> safe (this);
    menu.addItem (strings::keepHere (letterOf (which)), [safe, which] { safe->keepIn (which); });
    menu.addItem (strings::clearKept (letterOf (which)), [safe, which] { safe->clear (which); });
    menu.setLookAndFeel (&getLookAndFeel());
    menu.showMenuAsync (juce::PopupMenu::Options()
                            .withTargetComponent (slots[static_cast<std::size_t> (place)].get())
                            .withParentComponent (getParentComponent()));
}

void KeptBar::offerComparison()
{
    juce::PopupMenu menu;
    const juce::Component::SafePointer<KeptBar> safe (this);
    for (const auto which : filled())
        menu.addItem (strings::changeFrom (letterOf (which)) + "  " + shortTuning (processor.snapshot (which)), true,
                      compared == which,
                      [safe, which]
                      {
                          if (safe->onCompare)
                              safe->onCompare (which);
                      });
    menu.setLookAndFeel (&getLookAndFeel());
    menu.showMenuAsync (juce::PopupMenu::Options().withTargetComponent (&compare).withParentComponent (getParentComponent()));
}

void KeptBar::setCompared (std::optional<Snapshot> which)
{
    compared = which;
    compare.setButtonText (which ? strings::changeFrom (letterOf (*which)) : juce::String (strings::compareWith.face));
}

void KeptBar::refresh()
{
    const auto kept = filled();
    if (isBlind() && kept.size() != order.size())
        return setBlind (false); // a song was loaded meanwhile

    const auto live = processor.state().live;
    constexpr int leastForNames = 76; // px
    for (std::size_t i = 0; i < slots.size(); ++i)
    {
        auto& slot = *slots[i];
        slot.setVisible (i < kept.size());
        if (i >= kept.size())
            continue;
        const auto number = juce::String (static_cast<int> (i) + 1);
        const auto letter = letterOf (kept[i]);
        const auto values = processor.snapshot (kept[i]);
        const auto tuning = shortTuning (values);
        const bool isNow = isBlind() ? pressed == static_cast<int> (i) : plugin::morphed (values, values, 0.0, live) == live;
        slot.setButtonText (isBlind() ? number : slot.getWidth() < leastForNames ? letter : letter + "  " + tuning);
        slot.setTitle (strings::keptName (isBlind() ? number : letter));
        slot.setTooltip (isBlind() ? juce::String (strings::blindTip) : letter + ": " + tuning + ". " + strings::keptTip);
        slot.setHelpText (slot.getTooltip());
        slot.setToggleState (isNow, juce::dontSendNotification);
    }
    keep.setVisible (! isBlind());
    keep.setEnabled (kept.size() < slots.size());
    chooseThis.setVisible (isBlind());
    chooseThis.setEnabled (pressed.has_value());
    compare.setVisible (! isBlind());
    compare.setEnabled (! kept.empty());
    blind.setEnabled (isBlind() || kept.size() > 1);
    blind.setToggleState (isBlind(), juce::dontSendNotification);
    repaint();
}

void KeptBar::paint (juce::Graphics& g)
{
    if (slots.front()->isVisible())
        return;
    g.setColour (themeOf (*this).quiet);
    g.setFont (fonts::text());
    g.drawFittedText (strings::nothingKept, getLocalBounds().withLeft (keep.getRight() + 10).withRight (compare.getX() - 10),
                      juce::Justification::centredLeft, 1, 0.8f);
}

void KeptBar::resized()
{
    auto area = getLocalBounds().reduced (0, 1);
    const bool isNarrow = getWidth() < 900;
    keep.setBounds (area.removeFromLeft (isNarrow ? 62 : 80));
    chooseThis.setBounds (keep.getBounds());
    blind.setBounds (area.removeFromRight (isNarrow ? 52 : 64));
    match.setBounds (area.removeFromRight (isNarrow ? 108 : 124));
    compare.setBounds (area.removeFromRight (isNarrow ? 104 : 124));
    area.removeFromLeft (6);
    area.removeFromRight (6);
    const int width = juce::jmin (110, area.getWidth() / static_cast<int> (slots.size()));
    for (auto& slot : slots)
        slot->setBounds (area.removeFromLeft (width));
    refresh();
}

} // namespace editor
