#include "ListenView.h"

#include "Look.h"
#include "NoteText.h"
#include "Strings.h"

#include "Fitting/NoteReading.h"
#include "Modal/InputError.h"
#include "Plugin/PlayedLike.h"
#include "Wording/AnswerText.h"
#include "Wording/FitText.h"
#include "Wording/LikenessText.h"
#include "Wording/PlanText.h"
#include "Wording/TapText.h"

#include <cmath>
#include <utility>

namespace editor
{
namespace
{
using plugin::Parameter;
using Stage = plugin::ListeningReport::Stage;

constexpr int levelLooksPerSecond = 25;
constexpr const char* soundFileEndings = "wav;aif;aiff;flac;mp3";

/** A sentence of Wording, its notes with their signs. Not for the message of an error, which may name a file. */
juce::String wordsOf (const std::string& text)
{
    return withNoteSigns (juce::String::fromUTF8 (text.c_str()));
}

/** How far a lug is off if it alone is. */
fitting::Estimate suspectedCents (const fitting::HeadFit& head, int lug)
{
    const auto found = std::find_if (head.suspects.begin(), head.suspects.end(), [lug] (const auto& s) { return s.lug == lug; });
    return found == head.suspects.end() ? head.lugCents[static_cast<std::size_t> (lug)] : found->cents;
}

} // namespace

ListenView::ListenView (plugin::Processor& p)
    : processor (p), batter (strings::listenBatter, [this] { choose (Job::lugCheck, modal::HeadSide::batter); }),
      resonant (strings::listenResonant, [this] { choose (Job::lugCheck, modal::HeadSide::resonant); }),
      strikes (strings::listenStrikes, [this] { choose (Job::strikes, side); }),
      start (strings::startListening, [this] { toggle(); }), open (strings::openRecording, [this] { openFiles(); }),
      deleteTap (strings::deleteLastTap, [this] { processor.listener().deleteLastTap(); }),
      analyse (strings::analyseHead, [this] { processor.listener().analyse(); }),
      like (strings::playLike, [this] { processor.playLikeLastStrike(); }), apply (strings::applyToDrum, [this] { setDrum(); }),
      spectrogram (p.listener()), planner (p)
{
    setTitle (strings::listenTitle);
    setFocusContainerType (FocusContainerType::focusContainer);
    for (auto* child : std::initializer_list<juce::Component*>{ &batter, &resonant, &strikes, &start, &open, &taskLine,
                                                                &adviceLine, &level, &rods, &ring, &answers, &known, &note,
                                                                &tension, &deleteTap, &analyse, &like, &apply, &spectrogram })
        addAndMakeVisible (child);
    ring.onLug = [this] (int lug) { chooseLug (lug); };
    known.onChange = [this] { processor.setKnown (known.known()); };
    known.onRefused = [this] (const juce::String& why)
    {
        if (onSay)
            onSay (why);
    };
    planner.onPlanned = [this] (const plugin::RodTurns& turns)
    {
        const auto text = turnsText (turns);
        if (isNothing (turns))
            rods.setText (text.isEmpty() ? "" : strings::nothingToTurn, TextLine::Weight::quiet);
        else
            rods.setFigure (strings::rodsToTuning, text);
    };
    answers.onChosen = [this] { planRods (*processor.listener().report()); };
    const auto report = processor.listener().report();
    job = report->job;
    side = report->side;
    played = report->played; // set when it was found
    processor.heardChanged().addChangeListener (this);
    refresh();
}

ListenView::~ListenView()
{
    processor.heardChanged().removeChangeListener (this);
    processor.listener().stop(); // the page is gone
}

void ListenView::changeListenerCallback (juce::ChangeBroadcaster*)
{
    refresh();
}

void ListenView::choose (Job chosen, modal::HeadSide chosenSide)
{
    if (chosen != job || chosenSide != side)
    {
        processor.listener().forget();
        chosenLug = -1;
    }
    job = chosen;
    side = chosenSide;
    resized();
    refresh();
}

void ListenView::toggle()
{
    if (processor.listener().isListening())
        processor.listener().stop();
    else if (std::exchange (chosenLug, -1) >= 0)
        processor.listener().resume();
    else if (job == Job::strikes)
        processor.startHearingStrikes (known.known());
    else
        processor.startListening (side);
}

void ListenView::openFiles()
{
    chooser =
        std::make_unique<juce::FileChooser> (strings::openRecording.name, juce::File(), strings::filePattern (soundFileEndings));
    const int several = job == Job::strikes ? juce::FileBrowserComponent::canSelectMultipleItems : 0;
    chooser->launchAsync (juce::FileBrowserComponent::openMode | juce::FileBrowserComponent::canSelectFiles | several,
                          [safe = juce::Component::SafePointer<ListenView> (this)] (const juce::FileChooser& done)
                          {
                              if (safe == nullptr)
                                  return;
                              safe->open.grabKeyboardFocus();
                              juce::StringArray paths;
                              for (const auto& file : done.getResults())
                                  paths.add (file.getFullPathName());
                              safe->filesDropped (paths, 0, 0);
                          });
}

bool ListenView::isInterestedInFileDrag (const juce::StringArray& paths)
{
    return std::any_of (paths.begin(), paths.end(),
                        [] (const auto& path) { return juce::File (path).hasFileExtension (soundFileEndings); });
}

void ListenView::filesDropped (const juce::StringArray& paths, int, int)
{
    showDrag (false);
    if (paths.isEmpty())
        return;
    chosenLug = -1;
    if (job == Job::strikes)
        processor.hearStrikes (known.known(), paths);
    else
        processor.hearLugCheck (side, paths[0]);
}

void ListenView::showDrag (bool isOver)
{
    isDraggedOver = isOver;
    repaint();
}

void ListenView::setDrum()
{
    if (job == Job::lugCheck)
    {
        processor.applyMeasuredHead();
        return onSay (strings::applied);
    }
    if (const auto* answer = answers.chosen())
    {
        processor.applyAnswer (*answer);
        onSay (strings::appliedStrikes);
    }
}

/** The lug is tapped next. While stopped, pressing it again deselects it. */
void ListenView::chooseLug (int lug)
{
    const auto report = processor.listener().report();
    if (report->notes.empty())
        return;
    if (report->stage == Stage::off)
        chosenLug = lug == chosenLug ? -1 : lug;
    processor.listener().chooseLug (lug);
    refresh();
}

/** Taps of a head with a different number of lugs cannot be used. */
bool ListenView::endCheckOfOtherDrum (const Report& report)
{
    const int lugsNow = juce::roundToInt (processor.parameter (Parameter::lugs).plainValue());
    if (report.notes.empty() || static_cast<int> (report.notes.size()) == lugsNow)
        return false;
    processor.listener().forget();
    chosenLug = -1;
    batterAsHeard = resonantAsHeard = std::nullopt;
    planner.forget();
    rods.setText ({}, TextLine::Weight::quiet);
    if (onSay)
        onSay (strings::otherLugs);
    return true;
}

modal::ConcertPitch ListenView::concertPitch() const
{
    return { processor.parameter (Parameter::concertPitch).plainValue() };
}

juce::Colour ListenView::colourOfHead() const
{
    const auto& theme = themeOf (*this);
    return side == modal::HeadSide::batter ? theme.batter : theme.resonant;
}

void ListenView::refresh()
{
    const auto report = processor.listener().report();
    if (endCheckOfOtherDrum (*report))
        return; // a change message calls this again
    if (report->stage != Stage::off)
        chosenLug = -1;
    const bool isListening = processor.listener().isListening();
    if (onRunning)
        onRunning (isListening);
    if (isListening)
        startTimerHz (levelLooksPerSecond);
    else
    {
        stopTimer();
        level.clear();
    }
    level.setVisible (isListening);
    rods.setVisible (! isListening);
    known.setConcertPitch (concertPitch());

    showButtons (*report);
    showLugs (*report);
    showWords (*report);
    showFigures (*report);
    answers.show (job == Job::strikes && report->drum != nullptr && report->drum->isPossible ? report->drum->answers
                                                                                             : std::vector<fitting::DrumAnswer>(),
                  concertPitch());
    apply.setEnabled (job == Job::strikes ? answers.chosen() != nullptr : report->head && report->head->isPossible);
    spectrogram.show (*report, concertPitch());
    planRods (*report);
    takeLikeness (*report);
}

void ListenView::showButtons (const Report& report)
{
    const bool isListening = processor.listener().isListening(), isStrikes = job == Job::strikes;
    const bool hasResonant = processor.parameter (Parameter::bottom).plainValue() < 0.5;
    if (! hasResonant && (isStrikes || side == modal::HeadSide::resonant))
        return choose (Job::lugCheck, modal::HeadSide::batter);

    batter.setToggleState (! isStrikes && side == modal::HeadSide::batter, juce::dontSendNotification);
    resonant.setToggleState (! isStrikes && side == modal::HeadSide::resonant, juce::dontSendNotification);
    strikes.setToggleState (isStrikes, juce::dontSendNotification);
    resonant.setEnabled (hasResonant);
    strikes.setEnabled (hasResonant);

    const bool isBusy = report.stage == Stage::analysing && ! isListening;
    start.setButtonText (isListening      ? strings::stopListening
                         : chosenLug >= 0 ? strings::goOnListening
                                          : strings::startListening.face);
    start.setToggleState (isListening, juce::dontSendNotification);
    start.setEnabled (processor.hasInput() && ! isBusy);
    open.setEnabled (! isBusy && ! isListening);
    deleteTap.setButtonText (isStrikes ? strings::deleteLastStrike : strings::deleteLastTap.face);
    deleteTap.setEnabled (report.heardCount() > 0 && report.stage != Stage::analysing);
    analyse.setVisible (! isStrikes);
    like.setVisible (isStrikes);
    like.setEnabled (report.hasStroke && report.stage != Stage::analysing);
    analyse.setEnabled (report.heardCount() > 0 && ! report.head && report.stage != Stage::analysing);
}

void ListenView::showLugs (const Report& report)
{
    LugRing::Content content;
    content.colour = colourOfHead();
    content.next = report.stage == Stage::listening ? report.next : chosenLug;
    const auto count = report.notes.empty() ? static_cast<std::size_t> (processor.parameter (Parameter::lugs).plainValue() + 0.5)
                                            : report.notes.size();
    const double mean = report.meanNote();
    const bool hasFit = report.head && report.head->lugCents.size() == report.notes.size();
    const auto named = hasFit && report.head->isPossible ? report.head->verdict().lugs : std::vector<int>();
    for (std::size_t i = 0; i < count; ++i)
    {
        auto& heard = content.lugs.emplace_back();
        if (i >= report.notes.size() || ! report.notes[i])
            continue;
        const auto lug = static_cast<int> (i);
        heard.isNamed = std::count (named.begin(), named.end(), lug) > 0;
        // A tap hears the whole head; the fit separates the lugs. A lug that the answer names is shown as far off as it says.
        const auto cents = ! hasFit        ? fitting::Estimate{ modal::centsBetween (mean, report.notes[i]->value) }
                           : heard.isNamed ? suspectedCents (*report.head, lug)
                                           : report.head->lugCents[i];
        heard.deviation = std::abs (cents.value) < 0.5 ? juce::String ("0") : withSign (cents.value, 0);
        heard.isSure = ! hasFit || std::abs (cents.value) > cents.error;
        heard.detail = hasFit ? plusMinus (cents.error, 0) : noteWithCents (report.notes[i]->value, concertPitch());
    }
    const bool hasHead = report.head && report.head->isPossible;
    const double middle = hasHead ? report.head->tapNote.value : mean;
    content.centre = middle > 0.0 ? noteWithCents (middle, concertPitch()) : juce::String();
    content.detail = middle > 0.0 ? fixed (middle, 1) + " Hz" : juce::String (strings::nothingHeard);
    ring.show (content);
}

void ListenView::tell (const juce::String& task, const juce::String& text, bool isWarning)
{
    taskLine.setText (task, TextLine::Weight::answer);
    adviceLine.setText (text, isWarning ? TextLine::Weight::warning : TextLine::Weight::quiet);
    const auto all = task + ". " + text;
    if (all != announced && isShowing())
        juce::AccessibilityHandler::postAnnouncement (all, juce::AccessibilityHandler::AnnouncementPriority::medium);
    announced = all;
}

void ListenView::showWords (const Report& report)
{
    const bool isListening = processor.listener().isListening();
    if (report.remark.kind == listening::LugCheckRemark::Kind::failed && report.stage == Stage::off)
        tell (strings::cannotUse, juce::String::fromUTF8 (report.remark.error.c_str()) + ".", true);
    else if (! processor.hasInput() && report.recorded == nullptr)
        tell (strings::noInput, strings::howToGetInput, true);
    else if (isListening && report.isSilent)
        tell (strings::onlySilence, strings::whySilence, true);
    else if (job == Job::strikes)
        showStrikesWords (report);
    else
        showLugCheckWords (report);
}

void ListenView::showLugCheckWords (const Report& report)
{
    const auto remark = wording::text (report.remark);
    if (report.stage == Stage::analysing)
        tell (strings::analysing, {}, false);
    else if (report.stage == Stage::listening)
        tell (strings::tapBeside (report.next + 1), remark.empty() ? juce::String (strings::howToTap) : wordsOf (remark),
              report.remark.isRefusal());
    else if (chosenLug >= 0)
        tell (strings::tapBeside (chosenLug + 1), strings::lugChosen, false);
    else if (report.head)
        showHead (*report.head);
    else if (report.heardCount() > 0)
        tell (strings::listeningStopped, strings::howToGoOn, false);
    else
        tell (strings::beforeListening, strings::howToListen, false);
}

/** First the answer, then what remains uncertain. */
void ListenView::showHead (const fitting::HeadFit& head)
{
    if (! head.isPossible)
        return tell (strings::headNotHeard, wordsOf (wording::mostSevereText (head.findings)), true);

    const auto verdict = head.verdict();
    const auto reason = wordsOf (wording::reason (verdict));
    const auto answer = wordsOf (wording::answer (head, side, plugin::requestOf (processor.effectiveValues()).drum));
    if (head.isWarned() || verdict.kind == fitting::LugVerdict::Kind::unknown)
        return tell (answer, wordsOf (wording::mostSevereText (head.findings)), head.isWarned());
    tell (answer,
          reason.isNotEmpty() ? reason
                              : juce::String (verdict.correction != 0.0 ? strings::turnOfUsualDrum : strings::everyTapFits),
          false);
}

void ListenView::showStrikesWords (const Report& report)
{
    const bool isListening = processor.listener().isListening();
    const auto remark = wordsOf (wording::text (report.remark));
    if (report.played != nullptr)
    {
        juce::StringArray told;
        for (const auto& sentence : wording::sentences (report.played->likeness))
            told.add (wordsOf (sentence));
        tell (strings::playedLike, told.joinIntoString (" "), false);
    }
    else if (report.stage == Stage::analysing && report.drum != nullptr && ! isListening)
        tell (strings::analysingDrum, {}, false);
    else if (report.drum != nullptr)
    {
        const auto decides = wordsOf (wording::whatDecides (report.drum->answers, concertPitch()));
        const auto found = wordsOf (wording::mostSevereText (report.drum->findings));
        const bool isWarned =
            fitting::contains (report.drum->findings, fitting::Finding::Severity::warning) || ! report.drum->isPossible;
        const auto answer = report.drum->isPossible ? wordsOf (wording::answer (*report.drum, concertPitch()))
                                                    : juce::String (strings::drumNotHeard);
        if (report.remark.isRefusal())
            tell (answer, remark, true);
        else if (decides.isNotEmpty())
            tell (answer, decides, false);
        else
            tell (answer, found.isNotEmpty() ? found : juce::String (strings::strikesAgree), isWarned);
    }
    else if (report.stage == Stage::analysing)
        tell (strings::analysingDrum, {}, false);
    else if (isListening)
        tell (strings::strikeTheDrum, remark.isEmpty() ? juce::String (strings::howToStrike) : remark, report.remark.isRefusal());
    else if (report.remark.isRefusal())
        tell (strings::cannotUse, remark, true);
    else
        tell (strings::beforeListening, strings::howToHearStrikes, false);
}

void ListenView::showFigures (const Report& report)
{
    const auto pitch = concertPitch();
    const int heard = report.heardCount();
    note.setText ({}, TextLine::Weight::quiet);
    tension.setText ({}, TextLine::Weight::quiet);
    if (job == Job::strikes)
    {
        if (heard > 0)
            note.setFigure (strings::strikesHeard, juce::String (heard));
    }
    else if (report.head && report.head->isPossible)
    {
        const auto& head = *report.head;
        note.setFigure (strings::tapNote, noteWithCents (head.tapNote.value, pitch) + " " +
                                              plusMinus (fitting::errorInCents (head.tapNote), 1) + " cents");
        tension.setFigure (strings::tensionOfHead,
                           grouped (head.tension.value) + " " + plusMinus (head.tension.error, 0) + " N/m");
    }
    else if (heard > 0)
    {
        note.setFigure (strings::meanOfLugs (heard), noteWithCents (report.meanNote(), pitch));
        tension.setFigure (strings::lugsDone, strings::doneOf (heard, static_cast<int> (report.notes.size())));
    }
}

/** Shows how far to turn the rods from the drum that was heard to the tuning that is set, which another page may change. */
void ListenView::planRods (const Report& report)
{
    if (report.head && report.head->isPossible)
        (report.side == modal::HeadSide::batter ? batterAsHeard : resonantAsHeard) = fitting::headAsIs (*report.head);
    if (const auto* answer = answers.chosen())
    {
        const auto asHeard = [] (const fitting::DrumAnswer::Head& head)
        { return head.tension.value > 0.0 ? std::optional (fitting::HeadAsIs{ .tension = head.tension.value }) : std::nullopt; };
        batterAsHeard = asHeard (answer->batter);
        resonantAsHeard = asHeard (answer->resonant);
    }
    planner.follow (batterAsHeard, resonantAsHeard);
}

/** Takes over muffling and wires that were found, once, and plays strike and model. */
void ListenView::takeLikeness (const Report& report)
{
    if (std::exchange (played, report.played) == report.played || played == nullptr)
        return;
    processor.applyLikeness (*played);
    processor.hear (played->sideBySide);
}

void ListenView::timerCallback()
{
    level.feed (processor.listener().takePeak());
}

void ListenView::paintOverChildren (juce::Graphics& g)
{
    if (! isDraggedOver)
        return;
    const auto& theme = themeOf (*this);
    g.setColour (theme.paper.withAlpha (0.85f));
    g.fillRect (getLocalBounds());
    g.setColour (theme.ink);
    g.drawRect (getLocalBounds(), 2);
    g.setFont (fonts::title());
    g.drawFittedText (job == Job::strikes ? strings::dropStrikes : strings::dropLugCheck, getLocalBounds().reduced (20),
                      juce::Justification::centred, 2);
}

void ListenView::resized()
{
    constexpr int rowHeight = 28, space = 6;
    auto area = getLocalBounds();
    const int leftWidth = juce::jlimit (juce::jmin (340, area.getWidth()), 460, area.getWidth() * 38 / 100);
    auto left = area.removeFromLeft (leftWidth);
    spectrogram.setBounds (area.withTrimmedLeft (14));
    open.setBounds (spectrogram.besidePause() + spectrogram.getPosition());
    open.toFront (false);
    const bool isLow = getHeight() < 400;

    auto heading = left.removeFromTop (rowHeight);
    start.setBounds (heading.removeFromRight (66));
    heading.removeFromRight (space);
    const int share = heading.getWidth() / 10;
    batter.setBounds (heading.removeFromLeft (3 * share + 2));
    resonant.setBounds (heading.removeFromLeft (4 * share - 2));
    strikes.setBounds (heading);
    left.removeFromTop (space);
    taskLine.setBounds (left.removeFromTop (isLow ? 50 : 54));
    adviceLine.setBounds (left.removeFromTop (isLow ? 40 : 56));
    level.setBounds (left.removeFromTop (18));
    rods.setBounds (level.getBounds());

    auto commands = left.removeFromBottom (rowHeight);
    const bool isStrikes = job == Job::strikes;
    apply.setBounds (commands.removeFromRight (commands.getWidth() * 4 / 10));
    deleteTap.setBounds (commands.removeFromLeft (commands.getWidth() / 2));
    analyse.setBounds (commands);
    like.setBounds (commands);
    left.removeFromBottom (2);
    if (! isStrikes)
        tension.setBounds (left.removeFromBottom (19));
    note.setBounds (left.removeFromBottom (19));

    for (auto* part : std::initializer_list<juce::Component*>{ &answers, &known })
        part->setVisible (isStrikes);
    for (auto* part : std::initializer_list<juce::Component*>{ &ring, &tension })
        part->setVisible (! isStrikes);
    if (isStrikes)
    {
        known.setBounds (left.removeFromBottom (56));
        left.removeFromBottom (space);
        answers.setBounds (left.withTrimmedTop (4));
    }
    else
        ring.setBounds (left.reduced (0, 4));
}

} // namespace editor
