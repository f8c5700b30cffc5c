#include "Editor.h"

namespace editor
{
namespace
{

constexpr int firstWidth = 1200, firstHeight = 740;

} // namespace

Editor::Editor (plugin::Processor& drum) : juce::AudioProcessorEditor (drum), main (drum)
{
    setLookAndFeel (&look);
    setOpaque (true);
    main.onTheme = [this] { setTheme (look.theme().isDark ? Theme::light() : Theme::dark()); };
    addAndMakeVisible (main);
    setTheme (juce::Desktop::getInstance().isDarkModeActive() ? Theme::dark() : Theme::light());
    setResizable (true, true);
    setResizeLimits (smallestWidth, smallestHeight, largestWidth, largestHeight);
    setSize (firstWidth, firstHeight);
}

Editor::~Editor()
{
    setLookAndFeel (nullptr);
}

void Editor::setTheme (const Theme& theme)
{
    look.setTheme (theme);
    main.setDark (theme.isDark);
    sendLookAndFeelChange();
    repaint();
}

void Editor::resized()
{
    const float larger = magnification (getWidth(), getHeight());
    main.setTransform (juce::AffineTransform::scale (larger));
    main.setBounds (0, 0, juce::roundToInt (static_cast<float> (getWidth()) / larger + 0.49f),
                    juce::roundToInt (static_cast<float> (getHeight()) / larger + 0.49f));
}

std::unique_ptr<juce::AudioProcessorEditor> makeEditor (plugin::Processor& processor)
{
    return std::make_unique<Editor> (processor);
}

} // namespace editor
