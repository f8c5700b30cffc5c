#include "SectionView.h"

#include "Look.h"
#include "NoteText.h"
#include "Strings.h"

#include "Modal/Units.h"

#include <cmath>

namespace editor
{
namespace
{

constexpr float lineHeight = 16.0f;

/** How much the bending of a stick is enlarged; strings::bendingScale says so. No further than so many pixels. */
constexpr float bendingEnlarged = 50.0f, mostBend = 40.0f;

} // namespace

SectionView::SectionView()
{
    setTitle (strings::sectionTitle);
    setInterceptsMouseClicks (false, false);
}

void SectionView::setScene (const Scene& newScene)
{
    scene = newScene;
    if (const auto* modes = scene.modes(); modes != nullptr && modes != shapeOf)
    {
        shape = std::make_unique<SectionShape> (*modes, 0.0, sectionPoints);
        batterShape = nullptr;
        shapeOf = modes;
    }
    place();
    setPose ({});
    repaint();
}

void SectionView::setPose (const Pose& newPose)
{
    pose = newPose;
    batterLine.assign (sectionPoints, 0.0f);
    resonantLine.assign (sectionPoints, 0.0f);
    if (shape != nullptr && ! pose.field.empty())
    {
        if (batterShape == nullptr || batterAngle != pose.cutAngle)
        {
            batterShape = std::make_unique<SectionShape> (*scene.modes(), pose.cutAngle, sectionPoints);
            batterAngle = pose.cutAngle;
        }
        batterShape->displacement (pose.field.data(), batterLine.data());
        shape->displacement (pose.field.data() + pose.field.size() / 2, resonantLine.data());
        for (auto* line : { &batterLine, &resonantLine })
            for (auto& value : *line)
                value = juce::jlimit (-1.0f, 1.0f, value * pose.scale);
    }
    // Only the parts that move.
    const int reach = juce::roundToInt (swing * 1.3f) + 4;
    const auto area = drum.toNearestInt();
    repaint (0, 0, getWidth(), area.getY() + juce::jmax (reach, 12 + juce::roundToInt (lineHeight)));
    repaint (0, area.getBottom() - reach, getWidth(), 2 * reach + 16);
}

void SectionView::setCaption (const juce::String& text)
{
    if (text == caption)
        return;
    caption = text;
    repaint (0, 0, getWidth(), 20);
}

void SectionView::resized()
{
    place();
}

void SectionView::place()
{
    if (scene.now == nullptr)
        return;
    auto area = getLocalBounds().toFloat().reduced (16.0f, 0.0f);
    area.removeFromTop (18.0f);
    const auto& spec = scene.now->drum;
    const float proportion = static_cast<float> (spec.depth / spec.diameter);
    float width = area.getWidth() - 34.0f; // leaves room for the hoops
    float height = width * proportion;
    swing = juce::jlimit (4.0f, 26.0f, 0.14f * area.getHeight());
    // Above and below the heads: room for their motion and a line of text.
    const float most = area.getHeight() - 2.0f * (swing + lineHeight + 6.0f);
    if (height > most)
    {
        height = most;
        width = juce::jmax (height / proportion, 60.0f);
    }
    swing = juce::jmin (swing, 0.42f * height); // so that the heads never touch
    drum = juce::Rectangle<float> (width, height).withCentre (area.getCentre());
}

void SectionView::paint (juce::Graphics& g)
{
    if (scene.now == nullptr)
        return;
    drawShell (g);
    const bool hasResonant = scene.now->drum.hasResonantHead();
    if (hasResonant)
    {
        drawWires (g);
        drawHead (g, false);
    }
    drawHead (g, true);
    drawStick (g);
    drawWords (g);
}

void SectionView::drawShell (juce::Graphics& g) const
{
    const auto& theme = themeOf (*this);
    const float wall = juce::jmax (3.0f, drum.getWidth() * static_cast<float> (scene.now->drum.depth > 0.0 ? 0.012 : 0.0));
    g.setColour (theme.line.withMultipliedAlpha (0.35f));
    g.fillRect (drum);
    g.setColour (theme.quiet);
    for (const bool isLeft : { true, false })
    {
        // A wall with bevelled ends, the bearing edges.
        const float inner = isLeft ? drum.getX() : drum.getRight(), outer = isLeft ? inner - wall : inner + wall;
        juce::Path cut;
        cut.startNewSubPath (inner, drum.getY());
        cut.lineTo (outer, drum.getY() + wall);
        cut.lineTo (outer, drum.getBottom() - wall);
        cut.lineTo (inner, drum.getBottom());
        cut.closeSubPath();
        g.fillPath (cut);
        // Hoops.
        const float away = isLeft ? outer - 9.0f : outer + 3.0f;
        g.fillRoundedRectangle (away, drum.getY() - 7.0f, 6.0f, 17.0f, 1.5f);
        if (scene.now->drum.hasResonantHead())
            g.fillRoundedRectangle (away, drum.getBottom() - 10.0f, 6.0f, 17.0f, 1.5f);
    }
    if (scene.now->drum.bottom == modal::Bottom::closed)
        g.fillRect (drum.getX() - wall, drum.getBottom() - 2.0f, drum.getWidth() + 2.0f * wall, 5.0f);
}

void SectionView::drawHead (juce::Graphics& g, bool isBatter) const
{
    const auto& theme = themeOf (*this);
    const auto& line = isBatter ? batterLine : resonantLine;
    const float rest = isBatter ? drum.getY() : drum.getBottom();
    juce::Path head;
    for (int i = 0; i < sectionPoints; ++i)
    {
        const float x = xOf (2.0f * static_cast<float> (i) / (sectionPoints - 1) - 1.0f);
        const float y = rest - swing * (line.empty() ? 0.0f : line[static_cast<std::size_t> (i)]);
        if (i == 0)
            head.startNewSubPath (x, y);
        else
            head.lineTo (x, y);
    }
    const auto colour = isBatter ? theme.batter : theme.resonant;
    auto filled = head;
    filled.lineTo (xOf (1.0f), rest);
    filled.lineTo (xOf (-1.0f), rest);
    filled.closeSubPath();
    g.setColour (colour.withAlpha (0.18f));
    g.fillPath (filled);
    g.setColour (colour);
    g.strokePath (head, juce::PathStrokeType (isBatter ? 3.0f : 2.0f, juce::PathStrokeType::curved));
    // The head goes over the bearing edge to the hoop.
    for (const float side : { -1.0f, 1.0f })
        g.drawLine (xOf (side), rest, xOf (side) + side * 8.0f, rest + (isBatter ? 7.0f : -7.0f), isBatter ? 3.0f : 2.0f);
}

void SectionView::drawWires (juce::Graphics& g) const
{
    if (scene.model == nullptr)
        return;
    const auto& theme = themeOf (*this);
    const auto& wires = scene.model->setup().wires;
    const float half = static_cast<float> (wires.lengthShare);
    const float below = drum.getBottom() + (wires.on ? 4.0f : 15.0f);
    juce::Path strand;
    strand.startNewSubPath (xOf (-half), below);
    for (std::size_t i = 0; i < pose.strand.size(); ++i)
        strand.lineTo (xOf (pose.strandX[i]), below - swing * juce::jlimit (-1.0f, 1.0f, pose.strand[i] * pose.scale));
    strand.lineTo (xOf (half), below);
    g.setColour (theme.ink.withAlpha (0.8f));
    const float coil[] = { 2.2f, 1.6f };
    juce::Path wound;
    juce::PathStrokeType (2.2f).createDashedStroke (wound, strand, coil, 2);
    g.fillPath (wound);
    for (const float side : { -half, half })
        g.fillEllipse (juce::Rectangle<float> (5.0f, 5.0f).withCentre ({ xOf (side), below }));
}

/** The stick as long as it is, and its bending enlarged. */
void SectionView::drawStick (juce::Graphics& g) const
{
    if (pose.stick > 0.02f || scene.model == nullptr)
        return;
    const auto& theme = themeOf (*this);
    const auto& body = scene.model->setup().stick;
    const float height = swing * juce::jlimit (-1.2f, 2.2f, pose.stick * pose.scale);
    const juce::Point<float> tip (xOf (pose.stickX), drum.getY() - height - 4.0f);
    const juce::Point<float> along (0.87f, -0.48f), up (along.getY(), -along.getX()); // towards the butt, and across the stick
    const float pixels = drum.getWidth() / (2.0f * static_cast<float> (scene.model->setup().modes.radius)); // a metre
    const float length = pixels * static_cast<float> (body.bentLength()), enlarged = pixels * (body.isBrush() ? 1.0f : bendingEnlarged);

    juce::Path stick;
    stick.startNewSubPath (tip);
    const int steps = juce::jmax (2, static_cast<int> (pose.bend.size()));
    juce::Point<float> end;
    for (int i = 1; i < steps; ++i)
    {
        const float bend = pose.bend.empty() ? 0.0f : enlarged * pose.bend[static_cast<std::size_t> (i)];
        end = tip + along * (length * static_cast<float> (i) / static_cast<float> (steps - 1)) +
              up * juce::jlimit (-mostBend, mostBend, bend);
        stick.lineTo (end);
    }
    g.setColour (theme.ink);
    const float thickness = body.isBrush() ? 1.2f : 3.0f;
    g.strokePath (stick, juce::PathStrokeType (thickness, juce::PathStrokeType::curved, juce::PathStrokeType::rounded));
    if (body.isBrush())
        g.drawLine ({ end, end + along * (pixels * static_cast<float> (body.length - body.bentLength())) }, 4.0f);
    else
        g.fillEllipse (juce::Rectangle<float> (9.0f, 7.0f).withCentre (tip));

    g.setFont (fonts::small());
    g.setColour (theme.quiet);
    if (! body.isBrush())
        g.drawFittedText (strings::bendingScale,
                          getLocalBounds().withLeft (juce::roundToInt (drum.getRight()) + 14).withY (drum.toNearestInt().getY() + 12)
                              .withHeight (juce::roundToInt (lineHeight)),
                          juce::Justification::centredLeft, 1, 0.7f);
}

void SectionView::drawWords (juce::Graphics& g) const
{
    const auto& theme = themeOf (*this);
    const auto& now = *scene.now;
    auto top = getLocalBounds().toFloat().removeFromTop (18.0f);
    g.setFont (fonts::small());
    g.setColour (theme.quiet);
    g.drawFittedText (caption, top.toNearestInt().reduced (4, 0), juce::Justification::centredLeft, 1, 0.7f);

    const auto inches = [] (double metres) { return juce::String (metres / modal::units::inch, 1).replace (".0", "") + " in"; };
    // At the left, clear of the stick and of the moving heads.
    auto inside = drum.reduced (12.0f, 0.0f);
    inside.setWidth (juce::jmin (juce::jmax (inside.getWidth(), 160.0f), static_cast<float> (getWidth()) - inside.getX()));
    const auto write = [&] (float y, juce::Colour colour, const juce::Font& font, const juce::String& words)
    {
        g.setColour (colour);
        g.setFont (font);
        g.drawFittedText (words, inside.withY (y - 0.5f * lineHeight).withHeight (lineHeight).toNearestInt(),
                          juce::Justification::centredLeft, 1, 0.7f);
    };
    const float clear = swing + 0.5f * lineHeight + 3.0f;
    const auto headWords = [] (const char* name, const modal::HeadPrediction& head)
    { return juce::String (name) + "  " + grouped (head.tension) + " N/m"; };
    const bool hasRoom = drum.getHeight() > 2.0f * swing + lineHeight;
    write (drum.getY() - clear, theme.batter, fonts::title(), headWords (strings::batter, now.batter));
    if (hasRoom)
        write (drum.getCentreY(), theme.quiet, fonts::small(),
               inches (now.drum.diameter) + juce::String::fromUTF8 (" × ") + inches (now.drum.depth) + ", " +
                   now.drum.shell.material);
    if (now.drum.hasResonantHead())
        write (drum.getBottom() + juce::jmax (clear, 26.0f), theme.resonant, fonts::title(),
               headWords (strings::resonant, now.resonant));
}

} // namespace editor
