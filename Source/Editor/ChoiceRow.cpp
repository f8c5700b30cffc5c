#include "ChoiceRow.h"

#include "Look.h"

namespace editor
{
namespace
{

/** The outermost view of the window: a menu within it is drawn as large as the rest. */
juce::Component& wholeView (juce::Component& part)
{
    auto* view = &part;
    while (view->getParentComponent() != nullptr &&
           dynamic_cast<juce::AudioProcessorEditor*> (view->getParentComponent()) == nullptr)
        view = view->getParentComponent();
    return *view;
}

/** Room for a picture on a line, pixels. */
constexpr float leastPicture = 40.0f, mostPicture = 120.0f;

/** An entry of a menu with a picture before its name. */
class PictureItem : public juce::PopupMenu::CustomComponent
{
public:
    PictureItem (juce::String nameToShow, int indexToShow, bool isTicked, const ChoicePicture& pictureToDraw)
        : name (std::move (nameToShow)), index (indexToShow), ticked (isTicked), picture (pictureToDraw)
    {
    }

    void getIdealSize (int& width, int& height) override
    {
        width = pictureWidth + 30 + juce::roundToInt (fonts::text().getStringWidthFloat (name));
        height = 26;
    }

    void paint (juce::Graphics& g) override
    {
        const auto& theme = themeOf (*this);
        if (isItemHighlighted())
        {
            g.setColour (theme.line);
            g.fillRect (getLocalBounds());
        }
        auto area = getLocalBounds().toFloat().reduced (8.0f, 2.0f);
        picture (g, index, area.removeFromLeft (static_cast<float> (pictureWidth)), theme.ink);
        area.removeFromLeft (8.0f);
        g.setColour (theme.ink);
        g.setFont (ticked ? fonts::strong() : fonts::text());
        g.drawFittedText (name, area.toNearestInt(), juce::Justification::centredLeft, 1, 0.8f);
    }

private:
    static constexpr int pictureWidth = 120;

    juce::String name;
    int index;
    bool ticked;
    ChoicePicture picture;
};

} // namespace

void drawFormLine (juce::Graphics& g, const juce::Component& line, const juce::String& name, const juce::String& value)
{
    const auto& theme = themeOf (line);
    if (line.isMouseOver() && line.isEnabled())
    {
        g.setColour (theme.line.withAlpha (0.35f));
        g.fillRect (line.getLocalBounds());
    }
    // The value has what it needs, the name the rest.
    auto area = line.getLocalBounds().toFloat().reduced (4.0f, 1.0f).withTrimmedBottom (3.0f);
    const float needed = juce::jmin (fonts::strong().getStringWidthFloat (value) + 2.0f, 0.7f * area.getWidth());
    g.setColour (line.isEnabled() ? theme.ink : theme.mark);
    g.setFont (fonts::strong());
    g.drawFittedText (value, area.removeFromRight (name.isEmpty() ? area.getWidth() : needed).toNearestInt(),
                      name.isEmpty() ? juce::Justification::centred : juce::Justification::centredRight, 1, 0.7f);
    area.removeFromRight (6.0f);
    g.setColour (line.isEnabled() ? theme.quiet : theme.mark);
    g.setFont (fonts::text());
    g.drawFittedText (name, area.toNearestInt(), juce::Justification::centredLeft, 1, 0.75f);
    drawFocus (g, line, line.getLocalBounds().toFloat());
}

void offerChoices (juce::Component& beside, const juce::StringArray& choices, int now, std::function<void (int)> choose,
                   ChoicePicture picture)
{
    juce::PopupMenu menu;
    menu.setLookAndFeel (&beside.getLookAndFeel());
    for (int i = 0; i < choices.size(); ++i)
        if (picture)
            menu.addCustomItem (i + 1, std::make_unique<PictureItem> (choices[i], i, i == now, picture), nullptr, choices[i]);
        else
            menu.addItem (i + 1, choices[i], true, i == now);
    menu.showMenuAsync (juce::PopupMenu::Options().withTargetComponent (&beside).withParentComponent (&wholeView (beside)),
                        [safe = juce::Component::SafePointer<juce::Component> (&beside), chosen = std::move (choose)] (int item)
                        {
                            if (safe != nullptr && item != 0)
                                chosen (item - 1);
                        });
}

juce::String withMenuSign (const juce::String& value)
{
    return value + juce::String::fromUTF8 (" \xe2\x96\xbe");
}

ChoiceRow::ChoiceRow (ControlText text, ValueBinding binding, juce::StringArray choices)
    : ValueControl (std::move (text), std::move (binding)), names (std::move (choices))
{
}

void ChoiceRow::refresh()
{
    if (picture || binding().get() != drawn)
        repaint();
}

void ChoiceRow::paint (juce::Graphics& g)
{
    drawn = binding().get();
    drawFormLine (g, *this, text().name, withMenuSign (valueText()));
    if (! picture)
        return;
    // Between the name and the value, if there is room.
    const auto& theme = themeOf (*this);
    const float from = fonts::text().getStringWidthFloat (text().name) + 14.0f,
                to = static_cast<float> (getWidth()) - fonts::strong().getStringWidthFloat (withMenuSign (valueText())) - 14.0f;
    if (to - from >= leastPicture)
        picture (g, -1, getLocalBounds().toFloat().withLeft (from).withRight (juce::jmin (to, from + mostPicture)).reduced (0.0f, 3.0f),
                 isEnabled() ? theme.quiet : theme.mark);
}

void ChoiceRow::mouseDown (const juce::MouseEvent& event)
{
    if (event.getNumberOfClicks() == 1)
        offerChoices (*this, names, juce::roundToInt (binding().get()), [this] (int chosen) { change (chosen); },
                      picture);
}

} // namespace editor
