#include "HeaderBar.h"

#include "Look.h"
#include "ParameterBinding.h"
#include "Strings.h"

namespace editor
{
namespace
{
enum MenuItem
{
    save = 1,
    import,
    exportTo,
    firstDelete = 10000,
    firstPreset = 100
};

} // namespace

HeaderBar::HeaderBar (plugin::Processor& p)
    : processor (p), presets (strings::presets, [this] { offerPresets(); }),
      heads (strings::headsPage, [this] { onPage (Page::heads); }), sound (strings::soundPage, [this] { onPage (Page::sound); }),
      map (strings::mapPage, [this] { onPage (Page::map); }), setUp (strings::setUpPage, [this] { onPage (Page::setUp); }),
      listen (strings::listenPage, [this] { onPage (Page::listen); }),
      undo (strings::undo, [this] { processor.undoManager().undo(); }),
      redo (strings::redo, [this] { processor.undoManager().redo(); }), theme (strings::theme, [this] { onTheme(); })
{
    setFocusContainerType (FocusContainerType::focusContainer);
    for (auto* button : { &presets, &heads, &sound, &map, &setUp, &listen, &undo, &redo, &theme })
        addAndMakeVisible (button);
}

HeaderBar::~HeaderBar() = default;

void HeaderBar::setPage (Page page, bool soundHasPage)
{
    hasSoundPage = soundHasPage;
    sound.setVisible (hasSoundPage);
    heads.setToggleState (page == Page::heads || (page == Page::sound && ! hasSoundPage), juce::dontSendNotification);
    sound.setToggleState (page == Page::sound, juce::dontSendNotification);
    map.setToggleState (page == Page::map, juce::dontSendNotification);
    setUp.setToggleState (page == Page::setUp, juce::dontSendNotification);
    listen.setToggleState (page == Page::listen, juce::dontSendNotification);
    resized();
}

void HeaderBar::setDark (bool isDark)
{
    theme.setButtonText (isDark ? strings::toLight : strings::toDark);
}

juce::String HeaderBar::shownName() const
{
    const auto text = [this] (plugin::Parameter which)
    {
        const auto& parameter = processor.parameter (which);
        return shownValue (parameter, parameter.plainValue());
    };
    const auto name = processor.presetName();
    return name.isNotEmpty() ? name
                             : strings::drumWithoutName (text (plugin::Parameter::diameter), text (plugin::Parameter::depth),
                                                         text (plugin::Parameter::shellMaterial));
}

void HeaderBar::refresh()
{
    auto name = shownName();
    if (processor.presetName().isNotEmpty() && processor.isChangedSinceNamed())
        name << " " << strings::changed;
    presets.setButtonText (name);
    presets.setTooltip (name + ". " + strings::presets.tip);
    undo.setEnabled (processor.undoManager().canUndo());
    redo.setEnabled (processor.undoManager().canRedo());
}

void HeaderBar::paint (juce::Graphics& g)
{
    const auto& colours = themeOf (*this);
    g.setColour (colours.ink);
    g.setFont (fonts::display());
    g.drawText (strings::product, getLocalBounds().withWidth (presets.getX() - 8), juce::Justification::centredLeft, false);
}

void HeaderBar::resized()
{
    auto area = getLocalBounds().reduced (0, 7);
    const bool isNarrow = getWidth() < 900;
    const int small = isNarrow ? 46 : 58;
    area.removeFromLeft (134);
    theme.setBounds (area.removeFromRight (small));
    area.removeFromRight (6);
    redo.setBounds (area.removeFromRight (small));
    undo.setBounds (area.removeFromRight (small));
    area.removeFromRight (isNarrow ? 6 : 14);
    listen.setBounds (area.removeFromRight (small + 8));
    setUp.setBounds (area.removeFromRight (small + 12));
    map.setBounds (area.removeFromRight (small));
    if (hasSoundPage)
        sound.setBounds (area.removeFromRight (small + 8));
    heads.setBounds (area.removeFromRight (small + 8));
    area.removeFromRight (isNarrow ? 6 : 14);
    presets.setBounds (area.withWidth (juce::jmin (area.getWidth(), 300)));
}

void HeaderBar::offerPresets()
{
    const auto entries = processor.presets().entries();
    juce::PopupMenu menu, users, removal;
    std::map<juce::String, juce::PopupMenu> drums;
    std::vector<juce::String> order;
    for (std::size_t i = 0; i < entries.size(); ++i)
    {
        const auto& entry = entries[i];
        const int item = static_cast<int> (i);
        if (entry.isUsers)
        {
            users.addItem (firstPreset + item, entry.name);
            removal.addItem (firstDelete + item, entry.name);
            continue;
        }
        if (drums.find (entry.drum) == drums.end())
            order.push_back (entry.drum);
        drums[entry.drum].addItem (firstPreset + item, entry.name);
    }
    for (const auto& drum : order)
        menu.addSubMenu (drum, drums[drum]);
    menu.addSeparator();
    menu.addSubMenu (strings::yourPresets, users, users.getNumItems() > 0);
    menu.addItem (save, strings::saveAs);
    menu.addSubMenu (strings::deletePreset, removal, removal.getNumItems() > 0);
    menu.addSeparator();
    menu.addItem (import, strings::importPreset);
    menu.addItem (exportTo, strings::exportPreset);
    menu.setLookAndFeel (&getLookAndFeel());
    menu.showMenuAsync (juce::PopupMenu::Options().withTargetComponent (&presets).withParentComponent (getParentComponent()),
                        [safe = juce::Component::SafePointer<HeaderBar> (this), entries] (int item)
                        {
                            if (safe != nullptr && item != 0)
                                safe->choose (item, entries);
                        });
}

void HeaderBar::choose (int item, const std::vector<plugin::PresetEntry>& entries)
{
    if (item == save)
        nameAndSave();
    else if (item == import || item == exportTo)
        chooseFile (item == exportTo);
    else if (item >= firstDelete)
        processor.presets().remove (entries[static_cast<std::size_t> (item - firstDelete)], processor.undoManager());
    else
        processor.loadPreset (entries[static_cast<std::size_t> (item - firstPreset)]);
    refresh();
}

void HeaderBar::nameAndSave()
{
    nameEntry = std::make_unique<juce::TextEditor>();
    nameEntry->setTitle (strings::saveAs);
    nameEntry->setTooltip (strings::presets.tip);
    nameEntry->setFont (fonts::text());
    nameEntry->setTextToShowWhenEmpty (strings::presetNamePrompt, themeOf (*this).quiet);
    nameEntry->setText (processor.presetName(), false);
    nameEntry->setBounds (presets.getBounds());
    addAndMakeVisible (*nameEntry);
    nameEntry->selectAll();
    nameEntry->grabKeyboardFocus();
    const auto close = [this] (bool keeps)
    {
        if (nameEntry == nullptr)
            return;
        // The entry calls this, so it must outlive the call.
        std::shared_ptr<juce::TextEditor> closing (std::move (nameEntry));
        closing->onFocusLost = nullptr;
        if (closing->hasKeyboardFocus (true))
            returnKeyboard();
        closing->setVisible (false);
        juce::MessageManager::callAsync ([closing] {});
        if (keeps && closing->getText().trim().isNotEmpty())
            processor.savePreset (closing->getText().trim());
        refresh();
    };
    nameEntry->onReturnKey = [close] { close (true); };
    nameEntry->onEscapeKey = [close] { close (false); };
    nameEntry->onFocusLost = [close] { close (false); };
}

void HeaderBar::chooseFile (bool isExport)
{
    const auto folder = juce::File::getSpecialLocation (juce::File::userDocumentsDirectory);
    const auto named = folder.getChildFile (juce::File::createLegalFileName (shownName()) + ".json");
    chooser = std::make_unique<juce::FileChooser> (isExport ? strings::exportPreset : strings::importPreset,
                                                   isExport ? named : folder, "*.json");
    const int browserFlags = isExport ? juce::FileBrowserComponent::saveMode | juce::FileBrowserComponent::warnAboutOverwriting
                                      : juce::FileBrowserComponent::openMode | juce::FileBrowserComponent::canSelectFiles;
    chooser->launchAsync (browserFlags,
                          [safe = juce::Component::SafePointer<HeaderBar> (this), isExport] (const juce::FileChooser& done)
                          {
                              if (safe == nullptr)
                                  return;
                              safe->returnKeyboard();
                              if (done.getResult() == juce::File())
                                  return;
                              if (isExport)
                                  safe->processor.exportPreset (done.getResult());
                              else
                                  safe->processor.importPreset (done.getResult());
                              safe->refresh();
                          });
}

/** After a dialog the window's keys work again. */
void HeaderBar::returnKeyboard()
{
    if (auto* view = getParentComponent())
        view->grabKeyboardFocus();
}

} // namespace editor
