#include "MainView.h"

#include "Look.h"
#include "NoteText.h"
#include "ParameterBinding.h"
#include "Strings.h"

#include <cmath>
#include <utility>

namespace editor
{
namespace
{
using plugin::Parameter;

/** How often parameter values are compared with the shown ones; nothing is drawn unless one has changed. */
constexpr int looksPerSecond = 30;

/** Without a block of audio for this many timer calls (1 s) the host does not play: the longest blocks are far shorter. */
constexpr int mostLooksWithoutBlock = looksPerSecond;

} // namespace

MainView::MainView (plugin::Processor& p)
    : processor (p), scenes (p), strikes (p, scenes), loudness (p, scenes), header (p),
      batter (modal::HeadSide::batter, lugBindings (modal::HeadSide::batter)),
      resonant (modal::HeadSide::resonant, lugBindings (modal::HeadSide::resonant)), map (p),
      setUp (p, [this] (const juce::String& why) { refuse (why); }), listen (p), ladder (ladderBindings (p)),
      spectrum (highlightBinding()), kept (p), audition (p), patterns (p), hint (*this), seenBlocks (p.blockCount())
{
    setWantsKeyboardFocus (true);
    setFocusContainerType (FocusContainerType::keyboardFocusContainer);
    for (auto* view :
         std::initializer_list<juce::Component*>{ &header, &section, &batter, &resonant, &map, &setUp, &listen, &ladder, &result,
                                                  &spectrum, &decay, &kept, &audition, &patterns, &hint })
        addAndMakeVisible (view);
    addChildComponent (blindNotice);
    blindNotice.setText (strings::blindNotice, juce::dontSendNotification);
    blindNotice.setJustificationType (juce::Justification::centred);
    blindNotice.setFont (fonts::title());

    header.onPage = [this] (Page chosen) { setPage (chosen); };
    header.onTheme = [this]
    {
        if (onTheme)
            onTheme();
    };
    kept.onKept = [this] { scenes.refreshSnapshot(); };
    kept.onCompare = [this] (KeptBar::Snapshot which) { scenes.setReference (which); };
    kept.onBlind = [this] (bool) { resized(); };
    kept.onSay = [this] (const juce::String& what) { hint.say (what, false); };
    audition.onStroke = [this] (const engine::Stroke& stroke) { strike (stroke); };
    audition.onTrying = [this] (bool isTrying) { scenes.setTrying (isTrying); };
    kept.matchButton().onClick = [this] { loudness.setOn (kept.matchButton().getToggleState()); };
    batter.onStrike = [this] (double place, double angle, double strength) { audition.strikeAt (place, angle, strength); };
    map.onHear = [this] { audition.play (0); };
    map.foundBar().whySilent = [this] { return juce::String (isPlayed ? "" : whySilent()); };
    map.onSay = [this] (const juce::String& what, bool isRefusal) { hint.say (what, isRefusal); };
    listen.onRunning = [this] (bool isListening) { header.setListening (isListening); };
    listen.onSay = [this] (const juce::String& what) { hint.say (what, false); };
    ladder.modeColumn().onHover = [this] (int mode) { highlightMode (mode); };
    for (auto* control : std::initializer_list<ValueControl*>{ &ladder.batterHandle(), &ladder.resonantHandle(),
                                                               &ladder.gapHandle(), &ladder.drumNoteHandle(), &spectrum })
        control->onRefused = [this] (const juce::String& why) { refuse (why); };
    audition.setOnRefused ([this] (const juce::String& why) { refuse (why); });
    audition.onDragOut =
        [this] (juce::Component& button, const juce::String& name, const engine::Stroke& stroke, const juce::ModifierKeys& keys)
    { patterns.dragStroke (button, keys.isShiftDown() ? DragOut::Kind::midi : DragOut::Kind::audio, name, stroke); };
    patterns.setOnRefused ([this] (const juce::String& why) { refuse (why); });
    patterns.onSay = [this] (const juce::String& what) { hint.say (what, false); };

    scenes.onChange = [this] { showScene(); };
    motion.onPose = [this] (const Pose& pose, const juce::String& caption)
    {
        section.setCaption (caption);
        section.setPose (pose);
        batter.setPose (pose);
        resonant.setPose (pose);
    };
    strikes.onMotion = [this] (std::shared_ptr<const Motion> moved)
    {
        batter.setStrokePlace (moved->stroke.position, moved->stroke.angle);
        motion.play (std::move (moved));
    };
    strikes.onAnalysis = [this] (std::shared_ptr<const Analysis> heard)
    {
        spectrum.setAnalysis (heard);
        decay.setAnalysis (heard);
    };

    section.setCaption (strings::noStrikeYet);
    setPage (Page::heads);
    showScene();
    refreshValues();
    startTimerHz (looksPerSecond);
}

MainView::~MainView() = default;

void MainView::setPage (Page chosen)
{
    shownPage = chosen;
    resized();
    map.setShown (chosen == Page::map);
}

void MainView::highlightMode (int mode)
{
    if (mode == highlight)
        return;
    highlight = mode;
    ladder.modeColumn().setHighlight (mode);
    spectrum.repaint();
    motion.showMode (mode);
}

void MainView::strike (const engine::Stroke& stroke)
{
    // It would sound late, with the next block.
    if (! isPlayed)
        hint.say (whySilent(), true);
    else if (! processor.audition (stroke))
        hint.say (strings::tooManyStrokes, true);
    else
        hint.endRefusal();
}

const char* MainView::whySilent() const
{
    return processor.wrapperType == juce::AudioProcessor::wrapperType_Standalone ? strings::noOutput : strings::hostIsStill;
}

/** Checks whether the host asks for audio: without it strokes are silent. */
void MainView::watchAudio()
{
    const auto blocks = processor.blockCount();
    looksWithoutBlock = blocks == std::exchange (seenBlocks, blocks) ? looksWithoutBlock + 1 : 0;
    const bool wasPlayed = std::exchange (isPlayed, looksWithoutBlock < mostLooksWithoutBlock);
    if (isPlayed == wasPlayed)
        return;
    spectrum.setAdvice (isPlayed ? strings::noSpectrumYet : whySilent());
    if (isPlayed)
        hint.endRefusal();
}

void MainView::refuse (const juce::String& why)
{
    refreshValues(); // so that an earlier change does not clear the message
    hint.say (why, true);
}

void MainView::showScene()
{
    const auto& scene = scenes.scene();
    const modal::ConcertPitch pitch{ processor.parameter (Parameter::concertPitch).plainValue() };
    if (highlight >= 0)
        highlightMode (-1);
    motion.setScene (scene);
    section.setScene (scene);
    batter.setScene (scene);
    resonant.setScene (scene);
    ladder.setConcertPitch (pitch);
    ladder.setScene (scene);
    map.setScene (scene, pitch);
    result.setResult (predictedResult (scene, pitch));
    const auto reference = scenes.reference();
    result.setChangeHeading (reference ? strings::changeSince (plugin::Processor::nameOf (*reference))
                                       : juce::String (strings::changeColumn));
    kept.setCompared (reference);
    kept.refresh();
    spectrum.setScene (scene);
    decay.setScene (scene);
    loudness.follow();
    header.refresh();
}

void MainView::refreshValues()
{
    plugin::Values values{};
    for (std::size_t i = 0; i < plugin::parameterCount; ++i)
        values[i] = static_cast<float> (processor.parameter (static_cast<Parameter> (i)).plainValue());
    if (hasShownValues && values == shownValues)
        return;
    const auto differs = [&] (Parameter which)
    { return ! hasShownValues || plugin::valueOf (values, which) != plugin::valueOf (shownValues, which); };
    const bool hasOtherNotes = differs (Parameter::batterNote) || differs (Parameter::interval) ||
                               differs (Parameter::batterCents) || differs (Parameter::resonantCents) ||
                               differs (Parameter::concertPitch);
    shownValues = values;
    hasShownValues = true;
    hint.endRefusal();
    if (hasOtherNotes)
    {
        ladder.setConcertPitch ({ processor.parameter (Parameter::concertPitch).plainValue() });
        ladder.refreshHandles();
    }
    setUp.refresh();
    map.refresh();
    listen.refresh();
    audition.refresh();
    patterns.refresh();
    kept.refresh();
    batter.refreshLugs();
    resonant.refreshLugs();
    header.refresh();
}

void MainView::timerCallback()
{
    refreshValues();
    if (shownPage == Page::map)
        map.keeper().setStroke (audition.speed(), plugin::siOf (shownValues, Parameter::strokePlace));
    watchAudio();
    const auto message = processor.messages().latest();
    if (message.number != shownMessage)
    {
        shownMessage = message.number;
        hint.say (juce::String::fromUTF8 (message.text.c_str()), message.kind == plugin::Messages::Kind::refusal);
        header.refresh();
    }
}

std::vector<ValueBinding> MainView::lugBindings (modal::HeadSide side) const
{
    std::vector<ValueBinding> bindings;
    for (int lug = 0; lug < plugin::lugParameters; ++lug)
        bindings.push_back (
            bindingOf (processor, side == modal::HeadSide::batter ? plugin::batterLug (lug) : plugin::resonantLug (lug)));
    return bindings;
}

ValueBinding MainView::highlightBinding()
{
    ValueBinding binding;
    binding.low = -1.0;
    binding.high = 400.0;
    binding.step = binding.fineStep = 1.0;
    binding.get = [this] { return static_cast<double> (highlight); };
    binding.set = [this] (double mode)
    {
        const auto& now = scenes.scene().now;
        const int last = now == nullptr ? -1 : static_cast<int> (now->modes.size()) - 1;
        highlightMode (juce::jlimit (-1, last, juce::roundToInt (mode)));
    };
    binding.toText = [this] (double mode)
    {
        const auto& now = scenes.scene().now;
        const int index = juce::roundToInt (mode);
        return now == nullptr || index < 0 || index >= static_cast<int> (now->modes.size())
                   ? juce::String (strings::noMode)
                   : strings::modeName (now->modes[static_cast<std::size_t> (index)]);
    };
    binding.type = [this] (const juce::String& typed) -> juce::String
    {
        const auto& now = scenes.scene().now;
        const int found = now == nullptr ? -1 : strings::findMode (*now, typed);
        if (found < 0)
            return strings::noSuchMode;
        highlightMode (found);
        return {};
    };
    return binding;
}

void MainView::paint (juce::Graphics& g)
{
    const auto& theme = themeOf (*this);
    g.fillAll (theme.paper);
    g.setColour (theme.line);
    g.fillRect (12, header.getBottom() - 1, getWidth() - 24, 1);
    g.fillRect (12, kept.getY() - 3, getWidth() - 24, 1);
}

void MainView::resized()
{
    if (getWidth() == 0)
        return;
    const Layout layout (getWidth(), getHeight(), shownPage);
    const auto place = [] (juce::Component& view, juce::Rectangle<int> area)
    {
        view.setVisible (! area.isEmpty());
        view.setBounds (area);
    };
    header.setPage (shownPage, ! layout.hasSoundStrip);
    place (header, layout.header);
    place (section, layout.section);
    place (batter, layout.batter);
    place (resonant, layout.resonant);
    place (map, layout.map);
    place (setUp, layout.setUp);
    place (listen, layout.listen);
    place (ladder, layout.ladder);
    place (result, layout.result);
    place (spectrum, layout.spectrum);
    place (decay, layout.decay);
    place (kept, layout.kept);
    place (audition, layout.audition);
    place (patterns, layout.patterns);
    place (hint, layout.hint);
    if (kept.isBlind())
        for (auto* view : std::initializer_list<juce::Component*>{ &header, &section, &batter, &resonant, &map, &setUp, &listen,
                                                                   &ladder, &result, &spectrum, &decay })
            view->setVisible (false);
    blindNotice.setBounds (getLocalBounds().withBottom (layout.kept.getY()));
    blindNotice.setVisible (kept.isBlind());
    repaint();
}

bool MainView::keyPressed (const juce::KeyPress& key)
{
    const auto modifiers = key.getModifiers();
    const int code = key.getKeyCode();
    if (modifiers.isCommandDown() && (code == 'z' || code == 'Z'))
    {
        if (modifiers.isShiftDown())
            processor.undoManager().redo();
        else
            processor.undoManager().undo();
        return true;
    }
    if (modifiers.isCommandDown() && (code == 'y' || code == 'Y'))
    {
        processor.undoManager().redo();
        return true;
    }
    if (modifiers.isCommandDown())
        return false;
    if (code >= '1' && code <= '8')
    {
        audition.play (code - '1');
        return true;
    }
    if (code == juce::KeyPress::spaceKey)
        return batter.keyPressed (key);
    if (code == juce::KeyPress::escapeKey && audition.sweep().isRunning())
    {
        audition.sweep().stop();
        return true;
    }
    return false;
}

} // namespace editor
