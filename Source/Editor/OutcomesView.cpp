#include "OutcomesView.h"

#include "Look.h"
#include "Strings.h"

namespace editor
{
namespace
{

/** Widths of the columns, as x from the right. */
struct Columns
{
    explicit Columns (float width)
        : isNarrow (width < 330.0f), uncertainty (width < 260.0f ? 0.0f
                                                  : isNarrow     ? 46.0f
                                                                 : 66.0f),
          change (width < 260.0f ? 56.0f
                  : isNarrow     ? 60.0f
                                 : 72.0f)
    {
    }
    bool isNarrow;
    float uncertainty, change;

    juce::Rectangle<int> takeUncertainty (juce::Rectangle<float>& row) const
    {
        return row.removeFromRight (uncertainty).withTrimmedLeft (juce::jmin (uncertainty, 4.0f)).toNearestInt();
    }
    juce::Rectangle<int> takeChange (juce::Rectangle<float>& row) const { return row.removeFromRight (change).toNearestInt(); }
};

constexpr float headingHeight = 22.0f;

} // namespace

/** One line, as a component, so that it has a tooltip and a screen reader can reach it. */
class OutcomesView::Row : public juce::Component, public juce::SettableTooltipClient
{
public:
    explicit Row (const Outcome& first) : outcome (first) { setAccessible (true); }

    void set (const Outcome& next)
    {
        const bool isSame = next.name == outcome.name && next.label == outcome.label && next.value == outcome.value &&
                            next.change == outcome.change && next.limitShare == outcome.limitShare;
        outcome = next;
        setTitle (outcome.name + ": " + outcome.value);
        setDescription (outcome.change);
        setTooltip (outcome.tip);
        setHelpText (outcome.tip);
        if (! isSame)
            repaint();
    }

    const Outcome& shown() const noexcept { return outcome; }

    void paint (juce::Graphics& g) override
    {
        const auto& theme = themeOf (*this);
        auto area = getLocalBounds().toFloat().reduced (2.0f, 0.0f);
        const Columns columns (area.getWidth());
        if (outcome.isGroupStart)
        {
            g.setColour (theme.line);
            g.fillRect (area.getX(), 0.0f, area.getWidth(), 1.0f);
        }
        if (isMouseOver())
        {
            g.setColour (theme.line.withAlpha (0.35f));
            g.fillRect (getLocalBounds());
        }
        if (outcome.limitShare >= 0.0f)
        {
            // The bar ends at yield strength; the mark stands at half of it.
            const auto bar = area.withTop (area.getBottom() - 4.0f).withHeight (2.5f).withTrimmedRight (columns.uncertainty);
            g.setColour (theme.mark);
            g.fillRect (bar.withTop (bar.getBottom() - 1.0f));
            g.fillRect (bar.getRight() - 1.5f, bar.getY() - 4.0f, 1.5f, 6.5f);
            g.setFont (fonts::small());
            g.setColour (theme.quiet);
            g.drawText (strings::yieldMark,
                        bar.withTop (area.getY()).withTrimmedRight (5.0f).withHeight (area.getHeight() - 2.0f),
                        juce::Justification::centredRight, false);
            g.setColour (outcome.limitShare > careBegins ? theme.caution : theme.quiet);
            g.fillRect (bar.withWidth (bar.getWidth() * juce::jlimit (0.0f, 1.0f, outcome.limitShare)));
            g.setColour (theme.caution);
            g.fillRect (bar.getX() + careBegins * bar.getWidth(), bar.getY() - 1.5f, 1.5f, 5.5f);
        }
        g.setColour (theme.quiet);
        g.setFont (fonts::small());
        g.drawFittedText (columns.uncertainty > 0.0f ? outcome.uncertainty : juce::String(), columns.takeUncertainty (area),
                          juce::Justification::centredRight, 1, 0.7f);
        g.setColour (theme.ink);
        g.setFont (fonts::text());
        g.drawFittedText (outcome.change, columns.takeChange (area), juce::Justification::centredRight, 1, 0.7f);
        // The value has what it needs, the name the rest.
        const auto valueFont = fonts::strong(), nameFont = columns.isNarrow || outcome.isDetail ? fonts::small() : fonts::text();
        const float needed = juce::jmin (valueFont.getStringWidthFloat (outcome.value) + 1.0f, 0.6f * area.getWidth());
        g.setColour (outcome.limitShare > careBegins ? theme.caution : theme.ink);
        g.setFont (valueFont);
        g.drawFittedText (outcome.value, area.removeFromRight (needed).toNearestInt(), juce::Justification::centredRight, 1,
                          0.7f);
        area.removeFromRight (8.0f);
        area.removeFromLeft (outcome.isDetail ? 8.0f : 0.0f);
        g.setColour (theme.quiet);
        g.setFont (nameFont);
        g.drawFittedText (outcome.label.isEmpty() ? outcome.name : outcome.label, area.toNearestInt(),
                          juce::Justification::centredLeft, 1, 0.75f);
    }

    void mouseEnter (const juce::MouseEvent&) override { repaint(); }
    void mouseExit (const juce::MouseEvent&) override { repaint(); }

    std::unique_ptr<juce::AccessibilityHandler> createAccessibilityHandler() override
    {
        return std::make_unique<juce::AccessibilityHandler> (*this, juce::AccessibilityRole::staticText);
    }

private:
    static constexpr float careBegins = 0.5f; // common practice, no source
    Outcome outcome;
};

OutcomesView::OutcomesView()
{
    setTitle (strings::outcomesTitle);
}

OutcomesView::~OutcomesView() = default;

void OutcomesView::setOutcomes (std::vector<Outcome> outcomes)
{
    const bool isOther = outcomes.size() != rows.size();
    while (rows.size() < outcomes.size())
    {
        rows.push_back (std::make_unique<Row> (outcomes[rows.size()]));
        addAndMakeVisible (*rows.back());
    }
    rows.resize (outcomes.size());
    for (std::size_t i = 0; i < rows.size(); ++i)
        rows[i]->set (outcomes[i]);
    if (isOther)
        resized();
}

void OutcomesView::setChangeHeading (const juce::String& heading)
{
    if (heading != changeHeading)
        repaint();
    changeHeading = heading;
}

juce::String OutcomesView::valueOf (const juce::String& name) const
{
    for (const auto& row : rows)
        if (row->shown().name == name)
            return row->shown().value;
    return {};
}

juce::String OutcomesView::changeOf (const juce::String& name) const
{
    for (const auto& row : rows)
        if (row->shown().name == name)
            return row->shown().change;
    return {};
}

void OutcomesView::paint (juce::Graphics& g)
{
    const auto& theme = themeOf (*this);
    auto heading = getLocalBounds().toFloat().removeFromTop (headingHeight).reduced (2.0f, 0.0f);
    const Columns columns (heading.getWidth());
    g.setColour (theme.quiet);
    g.setFont (fonts::small());
    g.drawFittedText (columns.uncertainty > 0.0f ? strings::uncertaintyColumn : "", columns.takeUncertainty (heading),
                      juce::Justification::centredRight, 1, 0.7f);
    g.drawFittedText (changeHeading, columns.takeChange (heading), juce::Justification::centredRight, 1, 0.7f);
    g.setColour (theme.ink);
    g.setFont (fonts::title());
    g.drawFittedText (strings::outcomesTitle, heading.toNearestInt(), juce::Justification::centredLeft, 1, 0.8f);
}

void OutcomesView::resized()
{
    auto area = getLocalBounds().toFloat();
    area.removeFromTop (headingHeight);
    if (rows.empty())
        return;
    const float height = juce::jlimit (17.0f, 32.0f, area.getHeight() / static_cast<float> (rows.size()));
    for (auto& row : rows)
        row->setBounds (area.removeFromTop (height).toNearestInt());
}

} // namespace editor
