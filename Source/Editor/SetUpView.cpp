#include "SetUpView.h"

#include "Look.h"
#include "ParameterBinding.h"
#include "Strings.h"

namespace editor
{
namespace
{
using plugin::Parameter;

constexpr int rowHeight = 26, headingHeight = 30;

} // namespace

/** The sheet itself: groups one under another, in as many columns as fit. */
class SetUpView::Sheet : public juce::Component
{
public:
    Sheet (plugin::Processor& p, const std::function<void (const juce::String&)>& onRefused) : processor (p)
    {
        for (std::size_t i = 0; i < plugin::parameterCount; ++i)
        {
            const auto which = static_cast<Parameter> (i);
            auto row = std::make_unique<ParameterRow> (processor.parameter (which), bindingOf (processor, which));
            row->onRefused = onRefused;
            addAndMakeVisible (*row);
            rows.push_back (std::move (row));
        }
    }

    void refresh()
    {
        const int lugs = juce::roundToInt (processor.parameter (Parameter::lugs).plainValue());
        if (lugs != shownLugs)
        {
            shownLugs = lugs;
            layOut (getWidth());
        }
        const bool hasResonant = processor.parameter (Parameter::bottom).plainValue() < 0.5;
        for (std::size_t i = 0; i < rows.size(); ++i)
        {
            rows[i]->setEnabled (hasResonant || ! needsResonant (i));
            rows[i]->refresh();
        }
    }

    void layOut (int width)
    {
        const int columns = juce::jmax (1, width / 330), gap = 18;
        const int columnWidth = (width - (columns - 1) * gap) / columns;
        std::vector<int> bottom (static_cast<std::size_t> (columns), 0);
        headings.clear();
        for (std::size_t first = 0; first < rows.size();)
        {
            const char* const group = specAt (first).group;
            std::size_t last = first;
            int height = headingHeight;
            for (; last < rows.size() && juce::String (specAt (last).group) == group; ++last)
                height += isShown (last) ? rowHeight : 0;
            const auto column = std::min_element (bottom.begin(), bottom.end()) - bottom.begin();
            const int x = static_cast<int> (column) * (columnWidth + gap);
            int& y = bottom[static_cast<std::size_t> (column)];
            headings.push_back ({ group, { x, y, columnWidth, headingHeight } });
            y += headingHeight;
            for (std::size_t i = first; i < last; ++i)
            {
                rows[i]->setVisible (isShown (i));
                if (! isShown (i))
                    continue;
                rows[i]->setBounds (x, y, columnWidth, rowHeight);
                y += rowHeight;
            }
            first = last;
        }
        setSize (width, *std::max_element (bottom.begin(), bottom.end()));
        repaint();
    }

    void paint (juce::Graphics& g) override
    {
        const auto& theme = themeOf (*this);
        for (const auto& [words, area] : headings)
        {
            g.setColour (theme.ink);
            g.setFont (letters::title());
            g.drawFittedText (words, area.reduced (4, 4), juce::Justification::bottomLeft, 1, 0.8f);
            g.setColour (theme.line);
            g.fillRect (area.getX(), area.getBottom() - 1, area.getWidth(), 1);
        }
    }

    ParameterRow* rowOf (Parameter which) { return rows[plugin::indexOf (which)].get(); }

private:
    static const plugin::ParameterSpec& specAt (std::size_t i) { return plugin::specOf (static_cast<Parameter> (i)); }

    bool isShown (std::size_t i) const
    {
        const juce::String id (specAt (i).id);
        return ! id.contains ("_lug_") || id.getTrailingIntValue() <= shownLugs;
    }

    /** Whether a parameter means nothing on a drum of one head. */
    static bool needsResonant (std::size_t i)
    {
        const juce::String id (specAt (i).id);
        return id == "interval" || id.startsWith ("resonant_") || id.startsWith ("wire");
    }

    struct Heading
    {
        juce::String words;
        juce::Rectangle<int> area;
    };

    plugin::Processor& processor;
    std::vector<std::unique_ptr<ParameterRow>> rows;
    std::vector<Heading> headings;
    int shownLugs = plugin::lugParameters;
};

SetUpView::SetUpView (plugin::Processor& p, std::function<void (const juce::String&)> onRefused)
    : processor (p), sheet (std::make_unique<Sheet> (p, onRefused))
{
    setTitle (strings::setUpTitle);
    setFocusContainerType (FocusContainerType::focusContainer);
    viewport.setViewedComponent (sheet.get(), false);
    viewport.setScrollBarsShown (true, false);
    viewport.setScrollBarThickness (9);
    addAndMakeVisible (viewport);
}

SetUpView::~SetUpView() = default;

void SetUpView::refresh()
{
    sheet->refresh();
}

ParameterRow* SetUpView::rowOf (Parameter which)
{
    return sheet->rowOf (which);
}

void SetUpView::resized()
{
    viewport.setBounds (getLocalBounds());
    sheet->layOut (juce::jmax (100, getWidth() - 14));
}

} // namespace editor
