#include "SetUpView.h"

#include "CommandButton.h"
#include "Look.h"
#include "ParameterBinding.h"
#include "Strings.h"

#include <algorithm>
#include <list>

namespace editor
{
namespace
{
using plugin::Parameter;

constexpr int rowHeight = 26, headingHeight = 30, indent = 12;

const plugin::ParameterSpec& specAt (std::size_t i)
{
    return plugin::specOf (static_cast<Parameter> (i));
}

/** Parameters that most people leave alone, besides the numbers of parts that are chosen by name. */
bool isDetail (std::size_t i)
{
    const juce::String id (specAt (i).id);
    return id.contains ("_lug_") || id == "patch_size" || id == "patch_rub" || id == "muffle_ring_width" ||
           id == "batter_cents" || id == "resonant_cents" || id == "concert_pitch" || id == "tuning_channel";
}

/** The part that a parameter describes, or nullptr. */
const NamedPart* partOf (std::size_t i)
{
    for (const auto& part : namedParts())
        if (std::find (part.numbers.begin(), part.numbers.end(), static_cast<Parameter> (i)) != part.numbers.end())
            return &part;
    return nullptr;
}

/** Whether a parameter has no effect on a drum with one head. */
bool needsResonant (std::size_t i)
{
    const juce::String id (specAt (i).id);
    return id == "interval" || id.startsWith ("resonant_") || id.startsWith ("wire");
}

} // namespace

/** One group of parameters: heading, parts chosen by name, rows, and the rows that are folded away behind a button. */
struct SetUpView::Group
{
    juce::String name;
    std::vector<std::unique_ptr<ChoiceRow>> parts;
    std::vector<std::size_t> rows, details; ///< indices of parameters
    std::unique_ptr<CommandButton> numbers; ///< shows the details; none where there are none
    juce::Rectangle<int> heading;
};

/** The form itself: groups one under another, in as many columns as fit. */
class SetUpView::Form : public juce::Component
{
public:
    Form (plugin::Processor& p, const std::function<void (const juce::String&)>& onRefused) : processor (p)
    {
        for (std::size_t i = 0; i < plugin::parameterCount; ++i)
        {
            const auto which = static_cast<Parameter> (i);
            // The batter's note moves the batter alone, as its tag on the pitch ladder does.
            auto row = which == Parameter::batterNote
                           ? std::make_unique<ParameterRow> (processor.parameter (which), strings::batterNote(),
                                                             ladderBindings (processor).batter)
                           : std::make_unique<ParameterRow> (processor.parameter (which), bindingOf (processor, which));
            row->onRefused = onRefused;
            addChildComponent (*row);
            rows.push_back (std::move (row));
            groupNamed (specAt (i).group).rows.push_back (i);
        }
        for (const auto& part : namedParts())
        {
            auto row = std::make_unique<ChoiceRow> (ControlText{ part.name, "name", part.tip }, bindingOf (processor, part),
                                                    part.names());
            row->onRefused = onRefused;
            if (part.picture)
                row->setPicture ([this, &part] (juce::Graphics& g, int option, juce::Rectangle<float> area, juce::Colour colour)
                                 { part.picture (g, processor, option, area, colour); });
            addAndMakeVisible (*row);
            groupNamed (plugin::specOf (part.numbers.front()).group).parts.push_back (std::move (row));
        }
        for (auto& group : groups)
            foldDetails (group);
        placeInTabOrder();
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
        for (auto& group : groups)
            for (auto& part : group.parts)
            {
                part->setEnabled (hasResonant || ! needsResonant (group.details.front()));
                part->refresh();
            }
    }

    void layOut (int width)
    {
        const int columns = juce::jmax (1, width / 330), gap = 18;
        const int columnWidth = (width - (columns - 1) * gap) / columns;
        std::vector<int> bottom (static_cast<std::size_t> (columns), 0);
        for (auto& group : groups)
        {
            const auto column = std::min_element (bottom.begin(), bottom.end());
            const int x = static_cast<int> (column - bottom.begin()) * (columnWidth + gap);
            *column = layOut (group, { x, *column, columnWidth, 0 });
        }
        setSize (width, *std::max_element (bottom.begin(), bottom.end()));
        repaint();
    }

    void paint (juce::Graphics& g) override
    {
        const auto& theme = themeOf (*this);
        for (const auto& group : groups)
        {
            g.setColour (theme.ink);
            g.setFont (fonts::title());
            g.drawFittedText (group.name, group.heading.reduced (4, 4), juce::Justification::bottomLeft, 1, 0.8f);
            g.setColour (theme.line);
            g.fillRect (group.heading.withTop (group.heading.getBottom() - 1));
        }
    }

    ParameterRow* rowOf (Parameter which)
    {
        const auto index = plugin::indexOf (which);
        for (auto& group : groups)
            if (std::find (group.details.begin(), group.details.end(), index) != group.details.end())
                group.numbers->setToggleState (true, juce::sendNotificationSync);
        return rows[index].get();
    }

    ChoiceRow* partNamed (const juce::String& name)
    {
        for (auto& group : groups)
            for (auto& part : group.parts)
                if (part->text().name == name)
                    return part.get();
        return nullptr;
    }

private:
    Group& groupNamed (const char* name)
    {
        const auto found = std::find_if (groups.begin(), groups.end(), [&] (const auto& group) { return group.name == name; });
        if (found != groups.end())
            return *found;
        groups.emplace_back();
        groups.back().name = name;
        return groups.back();
    }

    void foldDetails (Group& group)
    {
        const auto isFolded = [] (std::size_t i) { return partOf (i) != nullptr || isDetail (i); };
        std::copy_if (group.rows.begin(), group.rows.end(), std::back_inserter (group.details), isFolded);
        group.rows.erase (std::remove_if (group.rows.begin(), group.rows.end(), isFolded), group.rows.end());
        if (group.details.empty())
            return;
        group.numbers = std::make_unique<CommandButton> (strings::showDetails, nullptr);
        group.numbers->setTitle (group.name + ": " + strings::showDetails.name);
        group.numbers->setClickingTogglesState (true);
        group.numbers->onStateChange = [this, &group] { showDetails (group); };
        addAndMakeVisible (*group.numbers);
        showDetails (group);
    }

    void showDetails (Group& group)
    {
        const auto face = juce::String (strings::showDetails.face) +
                          juce::String::fromUTF8 (group.numbers->getToggleState() ? " \xe2\x96\xbe" : " \xe2\x96\xb8");
        if (face == group.numbers->getButtonText())
            return;
        group.numbers->setButtonText (face);
        layOut (getWidth());
    }

    /** The Tab key follows the order on the page. */
    void placeInTabOrder()
    {
        int order = 0;
        for (auto& group : groups)
        {
            for (auto& part : group.parts)
                part->setExplicitFocusOrder (++order);
            for (const auto i : group.rows)
                rows[i]->setExplicitFocusOrder (++order);
            if (group.numbers != nullptr)
                group.numbers->setExplicitFocusOrder (++order);
            for (const auto i : group.details)
                rows[i]->setExplicitFocusOrder (++order);
        }
    }

    /** Places a group below the top edge of an area; returns where it ends. */
    int layOut (Group& group, juce::Rectangle<int> area)
    {
        const auto take = [&] (int height)
        {
            const auto line = area.withHeight (height);
            area.translate (0, height);
            return line;
        };
        const auto place = [&] (std::size_t i, int inset)
        {
            rows[i]->setVisible (isOnDrum (i));
            if (isOnDrum (i))
                rows[i]->setBounds (take (rowHeight).withTrimmedLeft (inset));
        };
        group.heading = take (headingHeight);
        for (auto& part : group.parts)
            part->setBounds (take (rowHeight));
        for (const auto i : group.rows)
            place (i, 0);
        if (group.numbers != nullptr)
            group.numbers->setBounds (take (rowHeight).removeFromLeft (96));
        const bool isOpen = group.numbers != nullptr && group.numbers->getToggleState();
        for (const auto i : group.details)
            if (isOpen)
                place (i, indent);
            else
                rows[i]->setVisible (false);
        return area.getY();
    }

    /** False for lugs that the drum does not have. */
    bool isOnDrum (std::size_t i) const
    {
        const juce::String id (specAt (i).id);
        return ! id.contains ("_lug_") || id.getTrailingIntValue() <= shownLugs;
    }

    plugin::Processor& processor;
    std::vector<std::unique_ptr<ParameterRow>> rows;
    std::list<Group> groups;
    int shownLugs = plugin::lugParameters;
};

SetUpView::SetUpView (plugin::Processor& p, std::function<void (const juce::String&)> onRefused)
    : processor (p), form (std::make_unique<Form> (p, onRefused))
{
    setTitle (strings::setUpTitle);
    setFocusContainerType (FocusContainerType::focusContainer);
    viewport.setViewedComponent (form.get(), false);
    viewport.setScrollBarsShown (true, false);
    viewport.setScrollBarThickness (9);
    addAndMakeVisible (viewport);
}

SetUpView::~SetUpView() = default;

void SetUpView::refresh()
{
    form->refresh();
}

ParameterRow* SetUpView::rowOf (Parameter which)
{
    return form->rowOf (which);
}

ChoiceRow* SetUpView::partNamed (const juce::String& name)
{
    return form->partNamed (name);
}

void SetUpView::resized()
{
    viewport.setBounds (getLocalBounds());
    form->layOut (juce::jmax (100, getWidth() - 14));
}

} // namespace editor
