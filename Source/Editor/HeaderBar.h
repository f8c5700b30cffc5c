#pragma once

#include "CommandButton.h"
#include "Layout.h"
#include "Strings.h"

#include "Plugin/Processor.h"

namespace editor
{

/** Presets, pages, undo and colours. */
class HeaderBar : public juce::Component
{
public:
    explicit HeaderBar (plugin::Processor&);
    ~HeaderBar() override;

    std::function<void (Page)> onPage;
    std::function<void()> onTheme;

    void setPage (Page, bool hasSoundPage);
    void setDark (bool);
    void setListening (bool isListening) { listen.setDot (isListening, strings::stillListening); }
    bool showsListening() const noexcept { return listen.showsDot(); }
    juce::String drumShown() const { return presets.getButtonText(); }

    /** Updates the name and the enabled buttons. */
    void refresh();

    void paint (juce::Graphics&) override;
    void resized() override;

private:
    void offerPresets();
    void choose (int item, const std::vector<plugin::PresetEntry>&);
    void nameAndSave();
    void chooseFile (bool isExport);
    void returnKeyboard();
    juce::String shownName() const; ///< the preset's name, or size and material

    plugin::Processor& processor;
    CommandButton presets, heads, sound, map, setUp, listen, undo, redo, theme;
    std::unique_ptr<juce::FileChooser> chooser;
    std::unique_ptr<juce::TextEditor> nameEntry;
    bool hasSoundPage = true;
};

} // namespace editor
