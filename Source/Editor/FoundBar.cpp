#include "FoundBar.h"

#include "NoteText.h"
#include "Strings.h"

#include "Modal/InputError.h"
#include "Plugin/ComparedTakes.h"
#include "Plugin/DrumRequest.h"
#include "Plugin/OfflineTake.h"
#include "Plugin/PatternBook.h"
#include "SoundFiles/MidiPart.h"

#include <algorithm>
#include <numeric>
#include <random>

namespace editor
{
namespace
{
using plugin::Parameter;

constexpr int looksAtTakes = 15;     // a second: at progress, and at whether a tuning has ended
constexpr double longestPart = 60.0; // s

/** Leaves out what comes after longestPart; the remark says so. */
juce::String shorten (score::Score& strokes)
{
    if (score::lastStroke (strokes) <= longestPart)
        return {};
    std::erase_if (strokes, [] (const score::TimedStroke& stroke) { return stroke.time > longestPart; });
    return strings::partIsCut (longestPart);
}

} // namespace

FoundBar::FoundBar (plugin::Processor& p)
    : processor (p), hearAll (strings::hearFound, [this] { hearCommand(); }), blind (strings::blindFound, [this] { setOrder(); }),
      choose (strings::chooseFound, [this] { chooseSounding(); }), sheet (strings::writeSheet,
                                                                          [this]
                                                                          {
                                                                              if (onSheet)
                                                                                  onSheet();
                                                                          })
{
    setTitle (strings::foundTitle);
    setFocusContainerType (FocusContainerType::focusContainer);
    for (int place = 0; place < most; ++place)
    {
        buttons.push_back (std::make_unique<CommandButton> (strings::foundTuning, [this, place] { press (place); }));
        addChildComponent (*buttons.back());
    }
    blind.setClickingTogglesState (true);
    for (auto* button : { &hearAll, &blind, &choose, &sheet })
        addAndMakeVisible (button);
    addChildComponent (progressBar);
    progressBar.setTitle (strings::hearProgress);
    refresh();
}

FoundBar::~FoundBar()
{
    stop();
    forget();
}

void FoundBar::say (const juce::String& what, bool isRefusal)
{
    if (what.isNotEmpty() && onSay)
        onSay (what, isRefusal);
}

/** Says why nothing can be heard, if so; true if it did. */
bool FoundBar::refuseIfSilent()
{
    const auto why = whySilent ? whySilent() : juce::String();
    say (why, true);
    return why.isNotEmpty();
}

void FoundBar::show (std::vector<Tuning> found)
{
    const auto isSame = [] (const Tuning& a, const Tuning& b) { return a.values == b.values; };
    if (! std::equal (found.begin(), found.end(), tunings.begin(), tunings.end(), isSame))
    {
        if (isRendering() || isReady())
            say (strings::foundChanged);
        stop();
        forget();
    }
    tunings = std::move (found);
    resized();
    refresh();
}

/** One button begins, cancels and stops. */
void FoundBar::hearCommand()
{
    if (isRendering())
    {
        forget();
        say (strings::hearCancelled);
    }
    else if (isPlaying())
        stop();
    else
        offerParts();
    refresh();
}

void FoundBar::offerParts()
{
    juce::PopupMenu menu;
    const juce::Component::SafePointer<FoundBar> safe (this);
    if (isReady())
        menu.addItem (strings::hearAgain,
                      [safe]
                      {
                          if (! safe->refuseIfSilent())
                              safe->beginInTurn();
                      });
    menu.addItem (strings::hearWithPattern, [safe] { safe->hearPattern(); });
    menu.addItem (strings::hearWithMidi, [safe] { safe->chooseFile(); });
    menu.setLookAndFeel (&getLookAndFeel());
    menu.showMenuAsync (juce::PopupMenu::Options().withTargetComponent (&hearAll).withParentComponent (getTopLevelComponent()));
}

void FoundBar::chooseFile()
{
    chooser = std::make_unique<juce::FileChooser> (strings::hearWithMidi, juce::File(), strings::filePattern (midiEndings));
    chooser->launchAsync (juce::FileBrowserComponent::openMode | juce::FileBrowserComponent::canSelectFiles,
                          [safe = juce::Component::SafePointer<FoundBar> (this)] (const juce::FileChooser& done)
                          {
                              if (safe == nullptr)
                                  return;
                              safe->hearAll.grabKeyboardFocus();
                              if (done.getResult() != juce::File())
                                  safe->hear (done.getResult());
                          });
}

void FoundBar::hear (const juce::File& midi)
{
    try
    {
        const bool hasBrush = plugin::stickOf (processor.effectiveValues()).isBrush();
        auto part = soundfiles::readMidiPart (midi.getFullPathName().toStdString(), "MIDI part", hasBrush);
        juce::StringArray remarks;
        for (const auto& remark : part.remarks)
            remarks.add (juce::String::fromUTF8 (remark.c_str()) + ".");
        render (std::move (part.strokes), remarks.joinIntoString (" "));
    }
    catch (const modal::InputError& error)
    {
        say (juce::String::fromUTF8 (error.what()), true);
    }
}

void FoundBar::hearPattern()
{
    const auto values = processor.effectiveValues();
    const auto& pattern = plugin::patternBook()[static_cast<std::size_t> (plugin::valueOf (values, Parameter::pattern))];
    render (plugin::inSeconds (pattern, 1, values), {});
}

void FoundBar::render (score::Score strokes, const juce::String& remark)
{
    if (refuseIfSilent())
        return;
    stop();
    forget();
    if (onRender)
        onRender();
    refresh();
    const auto solved = processor.solvedDrum();
    if (tunings.empty() || solved == nullptr)
        return say (strings::nothingFound, true);
    takesRate = solved->model->setup().sampleRate;
    const auto cut = shorten (strokes);
    say ((remark + " " + cut).trim());
    std::vector<plugin::Values> each;
    for (const auto& tuning : tunings)
        each.push_back (tuning.values);
    cancel = std::make_shared<std::atomic<bool>> (false);
    share = std::make_shared<std::atomic<double>> (0.0);
    rendering.run (
        [each, strokes = std::move (strokes), rate = takesRate, done = share, shouldEnd = cancel]
        {
            std::pair<Takes, juce::String> result;
            try
            {
                result.first = plugin::comparedTakes (each, strokes, rate, *done, *shouldEnd);
            }
            catch (const modal::InputError& error)
            {
                result.second = juce::String::fromUTF8 (error.what());
            }
            return result;
        },
        [this, mine = cancel] (std::pair<Takes, juce::String> result)
        {
            if (mine != cancel)
                return; // cancelled
            cancel = nullptr;
            say (result.second, true);
            take (std::move (result.first));
        });
    startTimerHz (looksAtTakes);
    refresh();
}

void FoundBar::take (Takes rendered)
{
    takes = std::move (rendered);
    if (isReady())
    {
        setOrder();
        if (isShowing())
            beginInTurn();
    }
    refresh();
}

/** Shuffles the tunings if they are heard blind. */
void FoundBar::setOrder()
{
    stop();
    pressed.reset();
    order.resize (takes.size());
    std::iota (order.begin(), order.end(), std::size_t{ 0 });
    if (blind.getToggleState())
        std::shuffle (order.begin(), order.end(), std::mt19937 (std::random_device{}()));
    refresh();
}

void FoundBar::beginInTurn()
{
    isInTurn = true;
    play (0);
}

void FoundBar::press (int place)
{
    if (! isReady())
    {
        if (onTune)
            onTune (place);
        return;
    }
    if (refuseIfSilent())
        return;
    isInTurn = false;
    play (place);
}

void FoundBar::play (int place)
{
    if (const auto solved = processor.solvedDrum(); solved == nullptr || solved->model->setup().sampleRate != takesRate)
    {
        stop();
        forget();
        refresh();
        return say (strings::otherRate, true);
    }
    pressed = place;
    processor.hear (takes[order[static_cast<std::size_t> (place)]]);
    startTimerHz (looksAtTakes);
    refresh();
}

void FoundBar::stop()
{
    isInTurn = false;
    if (isPlaying())
        processor.hear (std::make_shared<const plugin::Clip>());
}

/** Ends a render, and drops what was rendered. */
void FoundBar::forget()
{
    if (cancel != nullptr)
        *cancel = true;
    cancel = nullptr;
    takes.clear();
    order.clear();
    pressed.reset();
}

void FoundBar::chooseSounding()
{
    if (! pressed)
        return;
    const auto number = static_cast<int> (order[static_cast<std::size_t> (*pressed)]);
    stop();
    forget();
    refresh();
    if (onChoose)
        onChoose (number);
}

void FoundBar::timerCallback()
{
    progress = share != nullptr ? share->load() : 0.0;
    if (isInTurn && ! processor.isHearing())
    {
        if (const int next = *pressed + 1; next < static_cast<int> (order.size()))
            return play (next);
        isInTurn = false;
    }
    refresh();
    if (! isRendering() && ! isPlaying())
        stopTimer();
}

void FoundBar::refresh()
{
    const auto count = static_cast<int> (tunings.size());
    const bool isHidden = isReady() && blind.getToggleState();
    for (int place = 0; place < most; ++place)
    {
        auto& button = *buttons[static_cast<std::size_t> (place)];
        button.setVisible (place < count);
        if (place >= count)
            continue;
        const auto& tuning = tunings[isReady() ? order[static_cast<std::size_t> (place)] : static_cast<std::size_t> (place)];
        const auto number = juce::String (place + 1);
        button.setButtonText (isHidden ? number : number + "  " + tuning.face);
        button.setTitle (isHidden ? strings::keptName (number) : strings::foundName (place + 1, tuning.name));
        button.setTooltip (isHidden ? juce::String (strings::blindFoundTip)
                                    : tuning.tip + " " + (isReady() ? strings::hearOneTip : strings::foundTuning.tip));
        button.setHelpText (button.getTooltip());
        button.setToggleState (pressed == place, juce::dontSendNotification);
    }
    hearAll.setButtonText (isRendering() ? strings::cancelRender
                           : isPlaying() ? strings::stopListening
                                         : strings::hearFound.face);
    hearAll.setEnabled (count > 0);
    blind.setEnabled (count > 1);
    choose.setEnabled (pressed.has_value());
    progressBar.setVisible (isRendering());
}

void FoundBar::resized()
{
    auto area = getLocalBounds();
    auto list = area.removeFromTop (rowHeight);
    const int shown = juce::jmax (1, static_cast<int> (tunings.size()));
    const int width = juce::jmin (170, list.getWidth() / shown);
    for (const auto& button : buttons)
        button->setBounds (list.removeFromLeft (width).reduced (1, 1));
    auto commands = area.removeFromTop (rowHeight);
    const auto place = [&] (juce::Component& component, int wide)
    { component.setBounds (commands.removeFromLeft (wide).reduced (1, 1)); };
    place (hearAll, 100);
    place (blind, 58);
    place (choose, 66);
    sheet.setBounds (commands.removeFromRight (66).reduced (1, 1));
    progressBar.setBounds (commands.reduced (4, 5));
}

} // namespace editor
