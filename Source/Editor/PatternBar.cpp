#include "PatternBar.h"

#include "ParameterBinding.h"
#include "Strings.h"

#include "Plugin/PatternBook.h"

namespace editor
{
namespace
{
using plugin::Parameter;

constexpr int progressPerSecond = 15; // of the progress bar

} // namespace

PatternBar::PatternBar (plugin::Processor& p)
    : processor (p), pattern (p.parameter (Parameter::pattern), bindingOf (p, Parameter::pattern)),
      patternOn (p.parameter (Parameter::patternOn), bindingOf (p, Parameter::patternOn)),
      tempo ({ "Tempo", "bpm", strings::tipFor ("pattern_tempo") }, bindingOf (p, Parameter::patternTempo)),
      renderButton (strings::renderPattern, [this] { offerRender(); }),
      dragAudio (strings::dragAudio, [this] { say (strings::howToDrag); }),
      dragMidi (strings::dragMidi, [this] { say (strings::howToDrag); })
{
    setTitle (strings::patternTitle);
    setFocusContainerType (FocusContainerType::focusContainer);
    pattern.setShowsName (false);
    patternOn.setFace (strings::playPattern);
    for (auto* child : std::initializer_list<juce::Component*>{ &pattern, &tempo, &patternOn, &renderButton, &dragAudio, &dragMidi })
        addAndMakeVisible (child);
    addChildComponent (progressBar);
    progressBar.setTitle (strings::renderProgress);
    dragAudio.onDragOut = [this] (const auto&) { dragPattern (dragAudio, DragOut::Kind::audio); };
    dragMidi.onDragOut = [this] (const auto&) { dragPattern (dragMidi, DragOut::Kind::midi); };
    dragging.onSay = [this] (const juce::String& what) { say (what); };
    writer.onDone = [this] (const plugin::TakeWriter::Result& result)
    {
        showRendering (false);
        say (result.fault.isNotEmpty() ? result.fault : strings::rendered (files.mix, files.paths().size(), result.peak));
    };
}

PatternBar::~PatternBar() = default;

void PatternBar::say (const juce::String& what)
{
    if (onSay)
        onSay (what);
}

/** The pattern as it plays now; none while there is no drum yet. */
std::optional<plugin::TakeRequest> PatternBar::patternTake (int times)
{
    const auto solved = processor.solvedDrum();
    if (solved == nullptr)
        return std::nullopt;
    const auto values = processor.effectiveValues();
    const auto& chosen = plugin::patternBook()[static_cast<std::size_t> (plugin::valueOf (values, Parameter::pattern))];
    return plugin::takeOf (chosen, times, solved->model, values);
}

void PatternBar::dragPattern (juce::Component& source, DragOut::Kind kind)
{
    if (auto take = patternTake (1))
        dragging.begin (source, kind, pattern.valueText(), std::move (*take), processor.parameter (Parameter::patternTempo).plainValue());
}

void PatternBar::dragStroke (juce::Component& source, DragOut::Kind kind, const juce::String& name, const engine::Stroke& stroke)
{
    if (const auto solved = processor.solvedDrum())
        dragging.begin (source, kind, name, plugin::takeOf (stroke, solved->model, processor.effectiveValues()),
                        processor.parameter (Parameter::patternTempo).plainValue());
}

void PatternBar::offerRender()
{
    if (writer.isRunning())
    {
        writer.cancel();
        showRendering (false);
        return say (strings::renderCancelled);
    }
    juce::PopupMenu menu;
    const juce::Component::SafePointer<PatternBar> safe (this);
    for (const int times : { 1, 2, 4, 8, 16 })
        menu.addItem (strings::patternTimes (times), [safe, times] { safe->chooseFile (times); });
    menu.setLookAndFeel (&getLookAndFeel());
    menu.showMenuAsync (
        juce::PopupMenu::Options().withTargetComponent (&renderButton).withParentComponent (getParentComponent()));
}

void PatternBar::chooseFile (int times)
{
    const auto named = juce::File::getSpecialLocation (juce::File::userDocumentsDirectory)
                           .getChildFile (juce::File::createLegalFileName (pattern.valueText()) + ".wav");
    chooser = std::make_unique<juce::FileChooser> (strings::renderTo, named, "*.wav");
    chooser->launchAsync (juce::FileBrowserComponent::saveMode | juce::FileBrowserComponent::warnAboutOverwriting,
                          [safe = juce::Component::SafePointer<PatternBar> (this), times] (const juce::FileChooser& done)
                          {
                              if (safe == nullptr)
                                  return;
                              if (auto* view = safe->getParentComponent())
                                  view->grabKeyboardFocus();
                              if (done.getResult() != juce::File())
                                  safe->render (times, done.getResult());
                          });
}

void PatternBar::render (int times, const juce::File& mix)
{
    auto take = patternTake (times);
    if (! take)
        return;
    files = plugin::TakeFiles::beside (mix.withFileExtension ("wav"));
    writer.start (std::move (*take), files, processor.parameter (Parameter::patternTempo).plainValue());
    showRendering (true);
}

void PatternBar::showRendering (bool isRunning)
{
    progress = 0.0;
    progressBar.setVisible (isRunning);
    renderButton.setButtonText (isRunning ? strings::cancelRender : strings::renderPattern.face);
    if (isRunning)
        startTimerHz (progressPerSecond);
    else
        stopTimer();
}

void PatternBar::timerCallback()
{
    progress = writer.progress();
}

void PatternBar::refresh()
{
    pattern.refresh();
    tempo.repaint();
    patternOn.refresh();
}

void PatternBar::resized()
{
    auto area = getLocalBounds().reduced (0, 1);
    const bool isNarrow = getWidth() < 900;
    pattern.setBounds (area.removeFromLeft (isNarrow ? 190 : 230));
    tempo.setBounds (area.removeFromLeft (76));
    patternOn.setBounds (area.removeFromLeft (60));
    area.removeFromLeft (6);
    dragMidi.setBounds (area.removeFromRight (isNarrow ? 86 : 96));
    dragAudio.setBounds (area.removeFromRight (isNarrow ? 86 : 96));
    renderButton.setBounds (area.removeFromRight (isNarrow ? 86 : 96));
    area.removeFromRight (6);
    progressBar.setBounds (area.reduced (0, 4));
}

} // namespace editor
