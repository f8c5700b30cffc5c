#include "ResultView.h"

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

constexpr float resultHeading = 22.0f;

} // namespace

/** One line, as a component, so that it has a tooltip and a screen reader can reach it. */
class ResultView::Row : public juce::Component, public juce::SettableTooltipClient
{
public:
    explicit Row (const ResultLine& first) : line (first) { setAccessible (true); }

    void set (const ResultLine& next)
    {
        const bool isSame = next.name == line.name && next.label == line.label && next.value == line.value &&
                            next.change == line.change && next.limitShare == line.limitShare;
        line = next;
        setTitle (line.name + ": " + line.value);
        setDescription (line.change);
        setTooltip (line.tip);
        setHelpText (line.tip);
        if (! isSame)
            repaint();
    }

    const ResultLine& shown() const noexcept { return line; }

    void paint (juce::Graphics& g) override
    {
        const auto& theme = themeOf (*this);
        auto area = getLocalBounds().toFloat().reduced (2.0f, 0.0f);
        const Columns columns (area.getWidth());
        if (line.isGroupStart)
        {
            g.setColour (theme.line);
            g.fillRect (area.getX(), 0.0f, area.getWidth(), 1.0f);
        }
        if (isMouseOver())
        {
            g.setColour (theme.line.withAlpha (0.35f));
            g.fillRect (getLocalBounds());
        }
        if (line.limitShare >= 0.0f)
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
            g.setColour (line.limitShare > careBegins ? theme.caution : theme.quiet);
            g.fillRect (bar.withWidth (bar.getWidth() * juce::jlimit (0.0f, 1.0f, line.limitShare)));
            g.setColour (theme.caution);
            g.fillRect (bar.getX() + careBegins * bar.getWidth(), bar.getY() - 1.5f, 1.5f, 5.5f);
            area.removeFromBottom (4.0f); // letters keep clear of the bar
        }
        g.setColour (theme.quiet);
        g.setFont (fonts::small());
        g.drawFittedText (columns.uncertainty > 0.0f ? line.uncertainty : juce::String(), columns.takeUncertainty (area),
                          juce::Justification::centredRight, 1, 0.7f);
        g.setColour (theme.ink);
        g.setFont (fonts::text());
        g.drawFittedText (line.change, columns.takeChange (area), juce::Justification::centredRight, 1, 0.7f);
        // The value has what it needs, the name the rest.
        const auto valueFont = fonts::strong(), nameFont = columns.isNarrow || line.isDetail ? fonts::small() : fonts::text();
        const float needed = juce::jmin (valueFont.getStringWidthFloat (line.value) + 1.0f, 0.6f * area.getWidth());
        g.setColour (line.limitShare > careBegins ? theme.caution : theme.ink);
        g.setFont (valueFont);
        g.drawFittedText (line.value, area.removeFromRight (needed).toNearestInt(), juce::Justification::centredRight, 1, 0.7f);
        area.removeFromRight (8.0f);
        area.removeFromLeft (line.isDetail ? 8.0f : 0.0f);
        g.setColour (theme.quiet);
        g.setFont (nameFont);
        g.drawFittedText (line.label.isEmpty() ? line.name : line.label, area.toNearestInt(), juce::Justification::centredLeft, 1,
                          0.75f);
    }

    void mouseEnter (const juce::MouseEvent&) override { repaint(); }
    void mouseExit (const juce::MouseEvent&) override { repaint(); }

    std::unique_ptr<juce::AccessibilityHandler> createAccessibilityHandler() override
    {
        return std::make_unique<juce::AccessibilityHandler> (*this, juce::AccessibilityRole::staticText);
    }

private:
    static constexpr float careBegins = 0.5f; // common practice, no source
    ResultLine line;
};

ResultView::ResultView()
{
    setTitle (strings::resultTitle);
}

ResultView::~ResultView() = default;

void ResultView::setResult (std::vector<ResultLine> result)
{
    const bool isOther = result.size() != rows.size();
    while (rows.size() < result.size())
    {
        rows.push_back (std::make_unique<Row> (result[rows.size()]));
        addAndMakeVisible (*rows.back());
    }
    rows.resize (result.size());
    for (std::size_t i = 0; i < rows.size(); ++i)
        rows[i]->set (result[i]);
    if (isOther)
        resized();
}

void ResultView::setChangeHeading (const juce::String& heading)
{
    if (heading != changeHeading)
        repaint();
    changeHeading = heading;
}

juce::String ResultView::valueOf (const juce::String& name) const
{
    for (const auto& row : rows)
        if (row->shown().name == name)
            return row->shown().value;
    return {};
}

juce::String ResultView::changeOf (const juce::String& name) const
{
    for (const auto& row : rows)
        if (row->shown().name == name)
            return row->shown().change;
    return {};
}

void ResultView::paint (juce::Graphics& g)
{
    const auto& theme = themeOf (*this);
    auto heading = getLocalBounds().toFloat().removeFromTop (resultHeading).reduced (2.0f, 0.0f);
    const Columns columns (heading.getWidth());
    g.setColour (theme.quiet);
    g.setFont (fonts::small());
    g.drawFittedText (columns.uncertainty > 0.0f ? strings::uncertaintyColumn : "", columns.takeUncertainty (heading),
                      juce::Justification::centredRight, 1, 0.7f);
    g.drawFittedText (changeHeading, columns.takeChange (heading), juce::Justification::centredRight, 1, 0.7f);
    g.setColour (theme.ink);
    g.setFont (fonts::title());
    g.drawFittedText (strings::resultTitle, heading.toNearestInt(), juce::Justification::centredLeft, 1, 0.8f);
}

void ResultView::resized()
{
    auto area = getLocalBounds().toFloat();
    area.removeFromTop (resultHeading);
    if (rows.empty())
        return;
    const float height = juce::jlimit (17.0f, 32.0f, area.getHeight() / static_cast<float> (rows.size()));
    for (auto& row : rows)
        row->setBounds (area.removeFromTop (height).toNearestInt());
}

} // namespace editor
