#include "AnswersView.h"

#include "Look.h"
#include "NoteText.h"
#include "Strings.h"

#include "Fitting/NoteReading.h"
#include "Modal/Units.h"
#include "Wording/AnswerText.h"

namespace editor
{
namespace
{

constexpr std::size_t mostShown = 4;
constexpr int highest = 40; // of a button

/** "G♯3 −8 ±6 c" */
juce::String noteOf (const fitting::DrumAnswer::Head& head, modal::ConcertPitch pitch)
{
    if (head.tapNote.value <= 0.0)
        return strings::notHeard;
    return noteWithCents (head.tapNote.value, pitch) + " " + plusMinus (fitting::errorInCents (head.tapNote), 0) + " c";
}

juce::String tensionOf (const fitting::DrumAnswer::Head& head)
{
    return head.tension.value > 0.0 ? grouped (head.tension.value) + " " + plusMinus (head.tension.error, 0) : juce::String ("?");
}

} // namespace

AnswerButton::AnswerButton() : juce::Button (strings::answerName)
{
    setTooltip (strings::answerTip);
    setHelpText (strings::answerTip);
    setClickingTogglesState (false);
}

void AnswerButton::show (const fitting::DrumAnswer& answer, modal::ConcertPitch pitch)
{
    probability = static_cast<float> (answer.probability);
    share = juce::String (wording::percentText (answer.probability));
    notes = juce::String (strings::batter) + " " + noteOf (answer.batter, pitch) + ", " + strings::resonant + " " +
            noteOf (answer.resonant, pitch);
    const bool hasBoth = answer.batter.tapNote.value > 0.0 && answer.resonant.tapNote.value > 0.0;
    details =
        (hasBoth ? intervalName (modal::centsBetween (answer.batter.tapNote.value, answer.resonant.tapNote.value) / 100.0) + ", "
                 : juce::String()) +
        tensionOf (answer.batter) + " / " + tensionOf (answer.resonant) + " N/m, " +
        fixed (answer.diameter / modal::units::inch, 1).trimCharactersAtEnd ("0").trimCharactersAtEnd (".") + " in";
    setTitle (share + ": " + notes);
    setDescription (details);
    repaint();
}

void AnswerButton::paintButton (juce::Graphics& g, bool isOver, bool isDown)
{
    const auto& theme = themeOf (*this);
    const auto area = getLocalBounds().toFloat().reduced (1.0f);
    g.setColour (isOver || isDown ? theme.line : theme.sheet);
    g.fillRoundedRectangle (area, 4.0f);
    g.setColour (theme.drum.withAlpha (0.22f));
    g.fillRoundedRectangle (area.withWidth (juce::jmax (6.0f, area.getWidth() * probability)), 4.0f);
    g.setColour (getToggleState() ? theme.drum : theme.line);
    g.drawRoundedRectangle (area, 4.0f, getToggleState() ? 2.0f : 1.0f);

    auto lines = getLocalBounds().reduced (8, 2);
    g.setColour (theme.ink);
    g.setFont (fonts::strong());
    g.drawFittedText (share, lines.removeFromLeft (66), juce::Justification::centredLeft, 1, 0.75f);
    const bool hasDetails = lines.getHeight() >= 30;
    g.drawFittedText (notes, hasDetails ? lines.removeFromTop (lines.getHeight() * 11 / 20) : lines,
                      juce::Justification::centredLeft, 1, 0.75f);
    if (hasDetails)
    {
        g.setColour (theme.quiet);
        g.setFont (fonts::small());
        g.drawFittedText (details, lines, juce::Justification::centredLeft, 1, 0.75f);
    }
    drawFocus (g, *this, getLocalBounds().toFloat());
}

AnswersView::AnswersView()
{
    setTitle (strings::answersTitle);
    for (std::size_t i = 0; i < mostShown; ++i)
    {
        buttons.push_back (std::make_unique<AnswerButton>());
        buttons.back()->onClick = [this, i]
        {
            choose (i);
            if (onChosen)
                onChosen();
        };
        addChildComponent (*buttons.back());
        focus.add (*buttons.back());
    }
}

void AnswersView::show (const std::vector<fitting::DrumAnswer>& newAnswers, modal::ConcertPitch pitch)
{
    const auto isSame = [] (const auto& a, const auto& b)
    { return a.batter.tension.value == b.batter.tension.value && a.resonant.tension.value == b.resonant.tension.value; };
    if (! std::equal (answers.begin(), answers.end(), newAnswers.begin(), newAnswers.end(), isSame))
        which = 0;
    answers = newAnswers;
    for (std::size_t i = 0; i < buttons.size(); ++i)
    {
        buttons[i]->setVisible (i < answers.size());
        if (i < answers.size())
            buttons[i]->show (answers[i], pitch);
    }
    choose (which);
    resized();
}

const fitting::DrumAnswer* AnswersView::chosen() const noexcept
{
    return which < answers.size() ? &answers[which] : nullptr;
}

void AnswersView::choose (std::size_t index)
{
    which = index;
    for (std::size_t i = 0; i < buttons.size(); ++i)
        buttons[i]->setToggleState (i == which, juce::dontSendNotification);
}

void AnswersView::resized()
{
    auto area = getLocalBounds();
    const auto count = static_cast<int> (std::min (answers.size(), buttons.size()));
    const int height = count > 0 ? juce::jmin (highest, area.getHeight() / count) : 0;
    for (int i = 0; i < count; ++i)
        buttons[static_cast<std::size_t> (i)]->setBounds (area.removeFromTop (height).withTrimmedBottom (3));
}

} // namespace editor
