#include "ListenView.h"

#include "Look.h"
#include "NoteText.h"
#include "Strings.h"

#include "Modal/Note.h"
#include "Modal/Units.h"

#include <cmath>

namespace editor
{
namespace
{
using plugin::Parameter;
using Stage = plugin::ListeningReport::Stage;

constexpr int levelLooksPerSecond = 25;
constexpr int spotWidth = 46, spotHeight = 34;
constexpr int narrow = 320; // below this the buttons stand in two rows

juce::String plusMinus (double value, int decimals)
{
    return juce::String::fromUTF8 (" \xc2\xb1 ") + fixed (value, decimals);
}

} // namespace

ListenView::ListenView (plugin::Processor& p)
    : processor (p), batter (strings::listenBatter, [this] { choose (modal::HeadSide::batter); }),
      resonant (strings::listenResonant, [this] { choose (modal::HeadSide::resonant); }),
      start (strings::startListening, [this] { toggle(); }),
      takeBack (strings::takeBackTap, [this] { processor.listener().takeBack(); }),
      workOut (strings::workOutHead, [this] { processor.listener().workOut(); }), setDrum (strings::setDrumAsHeard,
                                                                                           [this]
                                                                                           {
                                                                                               processor.takeHeard();
                                                                                               onSay (strings::drumSetAsHeard);
                                                                                           }),
      centre (juce::Justification::centred), centreDetail (juce::Justification::centred)
{
    setTitle (strings::listenTitle);
    setFocusContainerType (FocusContainerType::focusContainer);
    for (auto* child : std::initializer_list<juce::Component*>{ &batter, &resonant, &start, &toDo, &says, &level, &centre,
                                                                &centreDetail, &takeBack, &workOut, &setDrum, &note, &tension })
        addAndMakeVisible (child);
    for (int number = 1; number <= plugin::mostLugs; ++number)
    {
        lugs.push_back (std::make_unique<LugSpot> (number));
        lugs.back()->onClick = [this, number] { processor.listener().chooseLug (number - 1); };
        addChildComponent (*lugs.back());
    }
    side = processor.listener().report()->side;
    processor.heardChanged().addChangeListener (this);
    refresh();
}

ListenView::~ListenView()
{
    processor.heardChanged().removeChangeListener (this);
    processor.listener().stop(); // nobody looks any more
}

void ListenView::changeListenerCallback (juce::ChangeBroadcaster*)
{
    refresh();
}

void ListenView::choose (modal::HeadSide chosen)
{
    if (chosen != side)
        processor.listener().forget();
    side = chosen;
    refresh();
}

void ListenView::toggle()
{
    if (processor.listener().report()->stage == Stage::listening)
        processor.listener().stop();
    else
        processor.startListening (side);
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
    const bool isListening = report->stage == Stage::listening;
    const bool hasResonant = processor.parameter (Parameter::bottom).plainValue() < 0.5;
    if (! hasResonant && side == modal::HeadSide::resonant)
        side = modal::HeadSide::batter;

    batter.setToggleState (side == modal::HeadSide::batter, juce::dontSendNotification);
    resonant.setToggleState (side == modal::HeadSide::resonant, juce::dontSendNotification);
    resonant.setEnabled (hasResonant);
    start.setButtonText (isListening ? strings::stopListening : strings::startListening.face);
    start.setToggleState (isListening, juce::dontSendNotification);
    start.setEnabled (processor.hasInput() && report->stage != Stage::workingOut);
    takeBack.setEnabled (report->heardCount() > 0 && report->stage != Stage::workingOut);
    workOut.setEnabled (report->heardCount() > 0 && ! report->head && report->stage != Stage::workingOut);
    setDrum.setEnabled (report->head && report->head->isPossible);

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
    if (const int count = juce::jmin (lugCount (report), plugin::mostLugs); count != shownLugs)
    {
        shownLugs = count;
        placeLugs();
    }
    const double mean = report.meanNote();
    const bool hasFit = report.head && report.head->lugCents.size() == report.notes.size();
    for (std::size_t i = 0; i < lugs.size(); ++i)
    {
        LugSpot::Heard heard;
        if (i < report.notes.size() && report.notes[i])
        {
            // By the fit where there is one: a tap hears the whole head, the fit takes that apart.
            const double cents = hasFit ? report.head->lugCents[i].value : modal::centsBetween (mean, report.notes[i]->value);
            heard.deviation = std::abs (cents) < 0.5 ? juce::String ("0") : withSign (cents, 0);
            heard.detail = hasFit ? plusMinus (report.head->lugCents[i].error, 0).trim()
                                  : noteWithCents (report.notes[i]->value, concertPitch());
        }
        lugs[i]->show (heard, report.stage == Stage::listening && report.next == static_cast<int> (i), colourOfHead());
    }
}

void ListenView::showWords (const Report& report)
{
    const auto tell = [this] (const juce::String& task, const juce::String& text, bool isWarning = false)
    {
        toDo.setText (task, TextLine::Weight::strong);
        says.setText (text, isWarning ? TextLine::Weight::warning : TextLine::Weight::quiet);
        const auto all = task + ". " + text;
        if (all != announced && isShowing())
            juce::AccessibilityHandler::postAnnouncement (all, juce::AccessibilityHandler::AnnouncementPriority::medium);
        announced = all;
    };

    if (report.stage == Stage::workingOut)
        tell (strings::workingOut, {});
    else if (! processor.hasInput())
        tell (strings::noInput, strings::howToGetInput, true);
    else if (report.stage == Stage::listening && report.isSilent)
        tell (strings::onlySilence, strings::whySilence, true);
    else if (report.stage == Stage::listening)
        tell (strings::tapBeside (report.next + 1),
              report.remark.text.empty() ? juce::String (strings::howToTap) : juce::String::fromUTF8 (report.remark.text.c_str()),
              report.remark.isRefusal);
    else if (report.head)
        tell (report.head->isPossible ? strings::headHeard : strings::headNotHeard,
              report.head->doubts.empty() ? juce::String (strings::everyTapFits)
                                          : juce::String::fromUTF8 (report.head->doubts.front().c_str()),
              ! report.head->isPossible);
    else if (report.heardCount() > 0)
        tell (strings::listeningStopped, strings::howToGoOn);
    else
        tell (strings::beforeListening, strings::howToListen);
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

void ListenView::placeLugs()
{
    const float size = static_cast<float> (
        juce::jmax (40, juce::jmin (picture.getWidth() - 2 * spotWidth - 12, picture.getHeight() - 2 * spotHeight - 12)));
    circle = juce::Rectangle<float> (size, size).withCentre (picture.toFloat().getCentre());
    for (int i = 0; i < static_cast<int> (lugs.size()); ++i)
    {
        auto& spot = *lugs[static_cast<std::size_t> (i)];
        spot.setVisible (i < shownLugs);
        if (i >= shownLugs)
            continue;
        // Numbered as on the heads' own page: both heads as seen from above.
        const double angle = modal::units::twoPi * i / shownLugs;
        const float c = static_cast<float> (std::cos (angle)), s = static_cast<float> (std::sin (angle));
        // Clear of the hoop at every angle: by the spot's own reach in that direction.
        const float reach = 0.5f * (size + std::abs (c) * spotWidth + std::abs (s) * spotHeight) + 5.0f;
        const juce::Point<float> at (circle.getCentreX() + c * reach, circle.getCentreY() - s * reach);
        spot.setBounds (juce::Rectangle<int> (spotWidth, spotHeight).withCentre (at.toInt()));
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
    toDo.setBounds (area.removeFromTop (20));
    says.setBounds (area.removeFromTop (isNarrow ? 68 : 50));
    level.setBounds (area.removeFromTop (16));

    auto commands = area.removeFromBottom (isNarrow ? 2 * rowHeight : rowHeight);
    if (isNarrow)
        setDrum.setBounds (commands.removeFromBottom (rowHeight));
    const int share = commands.getWidth() / (isNarrow ? 2 : 3);
    takeBack.setBounds (commands.removeFromLeft (share));
    workOut.setBounds (commands.removeFromLeft (share));
    if (! isNarrow)
        setDrum.setBounds (commands);
    area.removeFromBottom (2);

    tension.setBounds (area.removeFromBottom (19));
    note.setBounds (area.removeFromBottom (19));
    picture = area.reduced (0, 4);
    placeLugs();
}

} // namespace editor
