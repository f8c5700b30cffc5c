#include "ListenView.h"

#include "HeadGeometry.h"
#include "Look.h"
#include "NoteText.h"
#include "Strings.h"

#include "Wording/FitText.h"
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
constexpr int narrow = 320; // below this width text needs more lines

juce::String plusMinus (double value, int decimals)
{
    return juce::String::fromUTF8 (" \xc2\xb1 ") + fixed (value, decimals);
}

} // namespace

ListenView::ListenView (plugin::Processor& p)
    : processor (p), batter (strings::listenBatter, [this] { choose (modal::HeadSide::batter); }),
      resonant (strings::listenResonant, [this] { choose (modal::HeadSide::resonant); }),
      start (strings::startListening, [this] { toggle(); }),
      deleteTap (strings::deleteLastTap, [this] { processor.listener().deleteLastTap(); }),
      analyse (strings::analyseHead, [this] { processor.listener().analyse(); }), apply (strings::applyToDrum,
                                                                                         [this]
                                                                                         {
                                                                                             processor.applyMeasuredHead();
                                                                                             onSay (strings::applied);
                                                                                         }),
      centre (juce::Justification::centred), centreDetail (juce::Justification::centred)
{
    setTitle (strings::listenTitle);
    setFocusContainerType (FocusContainerType::focusContainer);
    for (auto* child :
         std::initializer_list<juce::Component*>{ &batter, &resonant, &start, &taskLine, &adviceLine, &level, &centre,
                                                  &centreDetail, &deleteTap, &analyse, &apply, &note, &tension })
        addAndMakeVisible (child);
    for (int number = 1; number <= plugin::lugParameters; ++number)
    {
        lugs.push_back (std::make_unique<LugSpot> (number));
        lugs.back()->onClick = [this, number] { chooseLug (number - 1); };
        addChildComponent (*lugs.back());
        lugFocus.add (*lugs.back());
    }
    side = processor.listener().report()->side;
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

void ListenView::choose (modal::HeadSide chosen)
{
    if (chosen != side)
    {
        processor.listener().forget();
        chosenLug = -1;
    }
    side = chosen;
    refresh();
}

void ListenView::toggle()
{
    if (processor.listener().report()->stage == Stage::listening)
        processor.listener().stop();
    else if (std::exchange (chosenLug, -1) >= 0)
        processor.listener().resume();
    else
        processor.startListening (side);
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
    if (onSay)
        onSay (strings::otherLugs);
    return true;
}

int ListenView::lugCount (const Report& report) const
{
    return report.notes.empty() ? juce::roundToInt (processor.parameter (Parameter::lugs).plainValue())
                                : static_cast<int> (report.notes.size());
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
    const bool isListening = report->stage == Stage::listening;
    if (report->stage != Stage::off)
        chosenLug = -1;
    if (onRunning)
        onRunning (isListening);
    const bool hasResonant = processor.parameter (Parameter::bottom).plainValue() < 0.5;
    if (! hasResonant && side == modal::HeadSide::resonant)
        side = modal::HeadSide::batter;

    batter.setToggleState (side == modal::HeadSide::batter, juce::dontSendNotification);
    resonant.setToggleState (side == modal::HeadSide::resonant, juce::dontSendNotification);
    resonant.setEnabled (hasResonant);
    start.setButtonText (isListening      ? strings::stopListening
                         : chosenLug >= 0 ? strings::goOnListening
                                          : strings::startListening.face);
    start.setToggleState (isListening, juce::dontSendNotification);
    start.setEnabled (processor.hasInput() && report->stage != Stage::analysing);
    deleteTap.setEnabled (report->heardCount() > 0 && report->stage != Stage::analysing);
    analyse.setEnabled (report->heardCount() > 0 && ! report->head && report->stage != Stage::analysing);
    apply.setEnabled (report->head && report->head->isPossible);

    level.setVisible (isListening);
    if (isListening)
        startTimerHz (levelLooksPerSecond);
    else
    {
        stopTimer();
        level.clear();
    }

    showLugs (*report);
    showWords (*report);
    showResult (*report);
    repaint (picture);
}

void ListenView::showLugs (const Report& report)
{
    if (const int count = juce::jmin (lugCount (report), plugin::lugParameters); count != shownLugs)
    {
        shownLugs = count;
        lugFocus.restart();
        placeLugs();
    }
    const double mean = report.meanNote();
    const bool hasFit = report.head && report.head->lugCents.size() == report.notes.size();
    for (std::size_t i = 0; i < lugs.size(); ++i)
    {
        LugSpot::Heard heard;
        if (i < report.notes.size() && report.notes[i])
        {
            // A tap hears the whole head; the fit separates the lugs.
            const double cents = hasFit ? report.head->lugCents[i].value : modal::centsBetween (mean, report.notes[i]->value);
            heard.deviation = std::abs (cents) < 0.5 ? juce::String ("0") : withSign (cents, 0);
            heard.isSure = ! hasFit || std::abs (cents) > report.head->lugCents[i].error;
            heard.detail = hasFit ? plusMinus (report.head->lugCents[i].error, 0).trim()
                                  : noteWithCents (report.notes[i]->value, concertPitch());
        }
        lugs[i]->show (heard, (report.stage == Stage::listening ? report.next : chosenLug) == static_cast<int> (i),
                       colourOfHead());
    }
}

void ListenView::showWords (const Report& report)
{
    const Tell tell = [this] (const juce::String& task, const juce::String& text, bool isWarning)
    {
        taskLine.setText (task, TextLine::Weight::strong);
        adviceLine.setText (text, isWarning ? TextLine::Weight::warning : TextLine::Weight::quiet);
        const auto all = task + ". " + text;
        if (all != announced && isShowing())
            juce::AccessibilityHandler::postAnnouncement (all, juce::AccessibilityHandler::AnnouncementPriority::medium);
        announced = all;
    };

    const auto remark = wording::text (report.remark);

    if (report.stage == Stage::analysing)
        tell (strings::analysing, {}, false);
    else if (! processor.hasInput())
        tell (strings::noInput, strings::howToGetInput, true);
    else if (report.stage == Stage::listening && report.isSilent)
        tell (strings::onlySilence, strings::whySilence, true);
    else if (report.stage == Stage::listening)
        tell (strings::tapBeside (report.next + 1),
              remark.empty() ? juce::String (strings::howToTap) : juce::String::fromUTF8 (remark.c_str()),
              report.remark.isRefusal());
    else if (chosenLug >= 0)
        tell (strings::tapBeside (chosenLug + 1), strings::lugChosen, false);
    else if (report.head)
        showHead (*report.head, tell);
    else if (report.heardCount() > 0)
        tell (strings::listeningStopped, strings::howToGoOn, false);
    else
        tell (strings::beforeListening, strings::howToListen, false);
}

/** First what to do, then what remains uncertain. */
void ListenView::showHead (const fitting::HeadFit& head, const Tell& tell) const
{
    const auto words = [] (const std::string& text) { return juce::String::fromUTF8 (text.c_str()); };
    if (! head.isPossible)
        return tell (strings::headNotHeard, words (wording::mostSevereText (head.findings)), true);

    const auto verdict = head.verdict();
    const auto action = words (wording::action (verdict)), reason = words (wording::reason (verdict));

    if (head.isWarned() || verdict.kind == fitting::LugVerdict::Kind::unknown)
        return tell (action, words (wording::mostSevereText (head.findings)), head.isWarned());

    tell (action, reason.isEmpty() ? juce::String (strings::everyTapFits) : reason, false);
}

void ListenView::showResult (const Report& report)
{
    const auto pitch = concertPitch();
    const bool hasHead = report.head && report.head->isPossible;
    const double mean = hasHead ? report.head->tapNote.value : report.meanNote();
    centre.setText (mean > 0.0 ? noteWithCents (mean, pitch) : juce::String(), TextLine::Weight::large);
    centreDetail.setText (mean > 0.0 ? fixed (mean, 1) + " Hz" : juce::String (strings::nothingHeard), TextLine::Weight::quiet);
    if (! hasHead)
    {
        if (mean > 0.0)
            note.setFigure (strings::meanOfLugs (report.heardCount()), noteWithCents (mean, pitch));
        else
            note.setText ({}, TextLine::Weight::quiet);
        tension.setText ({}, TextLine::Weight::quiet);
        return;
    }
    const auto& head = *report.head;
    const double cents = modal::centsBetween (head.tapNote.value, head.tapNote.value + head.tapNote.error);
    note.setFigure (strings::tapNote, noteWithCents (head.tapNote.value, pitch) + plusMinus (cents, 1) + " cents");
    tension.setFigure (strings::tensionOfHead, grouped (head.tension.value) + plusMinus (head.tension.error, 0) + " N/m");
}

void ListenView::timerCallback()
{
    level.feed (processor.listener().takePeak());
}

/** Positions for a given size of spots. The head may be wider than high, as if seen at a slant.

    @param slant  the head's width over its height, at most */
ListenView::Ring ListenView::ringOf (juce::Point<float> spot, float slant) const
{
    const auto area = picture.toFloat();
    const float mostAcross = juce::jmax (20.0f, 0.5f * area.getWidth() - spot.x - 6.0f),
                mostUp = juce::jmax (20.0f, 0.5f * area.getHeight() - spot.y - 6.0f);
    const float halfWidth = juce::jmin (mostAcross, slant * mostUp), halfHeight = juce::jmin (mostUp, halfWidth);
    Ring ring{ juce::Rectangle<float> (2.0f * halfWidth, 2.0f * halfHeight).withCentre (area.getCentre()), {} };
    for (int i = 0; i < shownLugs; ++i)
    {
        const auto direction = directionOf (angleOfLug (i, shownLugs));
        // Clear of the hoop at every angle.
        const float reach = 0.5f * (std::abs (direction.x) * spot.x + std::abs (direction.y) * spot.y) + 5.0f;
        const auto at = ring.head.getCentre() + direction * juce::Point<float> (halfWidth + reach, halfHeight + reach);
        ring.spots.push_back (juce::Rectangle<float> (spot.x, spot.y).withCentre (at).toNearestInt());
    }
    return ring;
}

bool ListenView::Ring::isClear() const
{
    for (std::size_t i = 1; i <= spots.size(); ++i)
        if (spots[i - 1].intersects (spots[i % spots.size()]))
            return false;
    return true;
}

void ListenView::placeLugs()
{
    constexpr juce::Point<float> roomy{ 46.0f, 34.0f }, small{ 42.0f, 28.0f };
    auto ring = ringOf (roomy, 1.0f);
    for (const auto& spot : { roomy, small })
        for (const float slant : { 1.3f, 1.6f, 2.0f, 2.5f })
            if (! ring.isClear())
                ring = ringOf (spot, slant);
    circle = ring.head;
    for (std::size_t i = 0; i < lugs.size(); ++i)
    {
        lugs[i]->setVisible (i < ring.spots.size());
        if (i < ring.spots.size())
            lugs[i]->setBounds (ring.spots[i]);
    }
    const auto middle = circle.reduced (6.0f).toNearestInt();
    centre.setBounds (middle.withHeight (26).withY (middle.getCentreY() - 24));
    centreDetail.setBounds (middle.withHeight (20).withY (middle.getCentreY() + 2));
    repaint();
}

void ListenView::paint (juce::Graphics& g)
{
    const auto& theme = themeOf (*this);
    g.setColour (theme.sheet);
    g.fillEllipse (circle);
    g.setColour (theme.quiet.withAlpha (0.5f));
    g.drawEllipse (circle.expanded (4.0f), 1.5f);
    g.setColour (colourOfHead());
    g.drawEllipse (circle, 1.8f);
}

void ListenView::resized()
{
    auto area = getLocalBounds();
    const bool isNarrow = area.getWidth() < narrow;
    constexpr int rowHeight = 28, space = 6;

    auto heading = area.removeFromTop (rowHeight);
    start.setBounds (heading.removeFromRight (juce::jmin (120, heading.getWidth() / 3)));
    heading.removeFromRight (space);
    batter.setBounds (heading.removeFromLeft (juce::jmin (110, heading.getWidth() / 2)));
    resonant.setBounds (heading.removeFromLeft (juce::jmin (110, heading.getWidth())));
    area.removeFromTop (space);
    taskLine.setBounds (area.removeFromTop (20));
    adviceLine.setBounds (area.removeFromTop (isNarrow ? 68 : 50));
    level.setBounds (area.removeFromTop (16));

    auto commands = area.removeFromBottom (isNarrow ? 36 : rowHeight);
    const int share = commands.getWidth() / 10;
    deleteTap.setBounds (commands.removeFromLeft (3 * share));
    analyse.setBounds (commands.removeFromLeft (3 * share));
    apply.setBounds (commands);
    area.removeFromBottom (2);

    tension.setBounds (area.removeFromBottom (19));
    note.setBounds (area.removeFromBottom (19));
    picture = area.reduced (0, 4);
    placeLugs();
}

} // namespace editor
