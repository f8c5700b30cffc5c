#include "HeadView.h"

#include "HeadGeometry.h"
#include "Look.h"
#include "NoteText.h"
#include "Strings.h"

#include "Modal/Units.h"

#include <cmath>

namespace editor
{
namespace
{

constexpr int pictureSize = 96;
constexpr double hardest = 3.0, softest = 1.0 / 3.0;

} // namespace

HeadView::HeadView (modal::HeadSide headSide, const std::vector<ValueBinding>& bindings) : side (headSide)
{
    const bool isBatter = side == modal::HeadSide::batter;
    setTitle (isBatter ? strings::batterHeadTitle : strings::resonantHeadTitle);
    setFocusContainerType (FocusContainerType::focusContainer);
    if (isBatter)
    {
        const auto words = strings::strikePoint();
        setTooltip (words.tip);
        setHelpText (words.tip);
        setWantsKeyboardFocus (true);
        setMouseCursor (juce::MouseCursor::CrosshairCursor);
    }
    for (std::size_t i = 0; i < bindings.size(); ++i)
    {
        const int number = static_cast<int> (i) + 1;
        lugs.push_back (std::make_unique<LugHandle> (side, number, strings::lug (isBatter, number), bindings[i]));
        addChildComponent (*lugs.back());
        lugFocus.add (*lugs.back());
    }
}

void HeadView::setScene (const Scene& newScene)
{
    scene = newScene;
    if (const auto* modes = scene.modes(); modes != nullptr && modes != shapeOf)
    {
        shape = std::make_unique<PlanShape> (*modes, pictureSize);
        shapeOf = modes;
    }
    const int count = scene.now == nullptr || (side == modal::HeadSide::resonant && ! scene.now->drum.hasResonantHead())
                          ? 0
                          : juce::jmin (scene.now->drum.lugs, static_cast<int> (lugs.size()));
    if (count != visibleLugs)
    {
        visibleLugs = count;
        for (std::size_t i = 0; i < lugs.size(); ++i)
            lugs[i]->setVisible (static_cast<int> (i) < count);
        lugFocus.restart();
        resized();
    }
    setPose ({});
    repaint();
}

void HeadView::refreshLugs()
{
    repaint();
}

void HeadView::setStrokePlace (double place, double angle)
{
    if (place == strokePlace && angle == strokeAngle)
        return;
    strokePlace = place;
    strokeAngle = angle;
    repaint();
}

void HeadView::resized()
{
    const float room = 24.0f; // around the head, for hoop, lugs and their numbers
    const float size = static_cast<float> (juce::jmin (getWidth(), getHeight() - 16)) - 2.0f * room;
    circle = juce::Rectangle<float> (size, size).withCentre (getLocalBounds().withTrimmedTop (16).toFloat().getCentre());
    for (int i = 0; i < visibleLugs; ++i)
    {
        const auto at = circle.getCentre() + directionOf (angleOfLug (i, visibleLugs)) * (0.5f * size + 13.0f);
        lugs[static_cast<std::size_t> (i)]->setBounds (juce::Rectangle<float> (28.0f, 34.0f).withCentre (at).toNearestInt());
    }
}

void HeadView::setPose (const Pose& newPose)
{
    const bool wasMoving = isMoving;
    pose = newPose;
    isMoving = shape != nullptr && ! pose.field.empty();
    needsPicture = true;
    if (isMoving || wasMoving)
        repaint (circle.expanded (1.0f).toNearestInt());
}

void HeadView::paintPicture()
{
    needsPicture = false;
    const auto& theme = themeOf (*this);
    if (picture.isNull())
        picture = juce::Image (juce::Image::ARGB, pictureSize, pictureSize, true);
    const auto half = pose.field.size() / 2;
    shape->displacement (pose.field.data() + (side == modal::HeadSide::batter ? 0 : half), heights);

    // Bands instead of smooth shading: they show contour lines.
    constexpr int bands = 14;
    juce::PixelARGB colours[2 * bands + 1];
    for (int i = -bands; i <= bands; ++i)
        colours[i + bands] = theme.displacement (static_cast<float> (i) / bands).getPixelARGB();
    juce::Image::BitmapData pixels (picture, juce::Image::BitmapData::writeOnly);
    for (int y = 0; y < pictureSize; ++y)
        for (int x = 0; x < pictureSize; ++x)
        {
            auto* pixel = reinterpret_cast<juce::PixelARGB*> (pixels.getPixelPointer (x, y));
            const float amount = juce::jlimit (-1.0f, 1.0f, heights[static_cast<std::size_t> (y * pictureSize + x)] * pose.scale);
            *pixel = shape->isInside (x, y) ? colours[juce::roundToInt (amount * bands) + bands] : juce::PixelARGB (0, 0, 0, 0);
        }
}

void HeadView::paint (juce::Graphics& g)
{
    const auto& theme = themeOf (*this);
    const bool isBatter = side == modal::HeadSide::batter;
    const auto colour = isBatter ? theme.batter : theme.resonant;
    if (scene.now == nullptr || visibleLugs == 0)
        return;

    g.setFont (fonts::title());
    g.setColour (colour);
    g.drawFittedText (isBatter ? strings::batter : strings::resonant, getLocalBounds().removeFromTop (15).reduced (4, 0),
                      juce::Justification::centredLeft, 1, 0.8f);

    g.setColour (theme.sheet);
    g.fillEllipse (circle);
    if (isMoving)
    {
        if (needsPicture)
            paintPicture();
        g.setImageResamplingQuality (juce::Graphics::mediumResamplingQuality);
        g.drawImage (picture, circle);
    }
    if (! isBatter)
        drawWireBed (g);
    g.setColour (theme.quiet.withAlpha (0.5f));
    g.drawEllipse (circle.expanded (5.0f), 2.0f);
    g.setColour (colour);
    g.drawEllipse (circle, 1.8f);
    drawLugNumbers (g);

    if (isBatter)
    {
        const float r = 0.5f * circle.getWidth() * static_cast<float> (strokePlace);
        const auto at = circle.getCentre() + directionOf (strokeAngle) * r;
        g.setColour (theme.ink);
        g.drawEllipse (juce::Rectangle<float> (9.0f, 9.0f).withCentre (at), 1.5f);
        g.fillEllipse (juce::Rectangle<float> (3.0f, 3.0f).withCentre (at));
        if (hasKeyboardFocus (false))
            g.drawEllipse (circle.reduced (3.0f), 1.5f);
    }
}

/** Each lug's number inside the hoop, with its deviation in cents. */
void HeadView::drawLugNumbers (juce::Graphics& g) const
{
    const auto& theme = themeOf (*this);
    g.setFont (fonts::small());
    for (int i = 0; i < visibleLugs; ++i)
    {
        const double cents = lugs[static_cast<std::size_t> (i)]->binding().get();
        const bool isEven = std::abs (cents) < 0.05;
        const auto words = juce::String (i + 1) + (isEven ? juce::String() : ": " + withSign (cents, 0));
        const float width = fonts::small().getStringWidthFloat (words) + 2.0f, height = 12.0f;
        const auto direction = directionOf (angleOfLug (i, visibleLugs));
        // The text stays clear of the hoop at every angle.
        const float reach = 0.5f * (circle.getWidth() - std::abs (direction.x) * width - std::abs (direction.y) * height) - 4.0f;
        const auto place = juce::Rectangle<float> (width, height).withCentre (circle.getCentre() + direction * reach);
        g.setColour (theme.sheet.withAlpha (0.7f)); // wires end here
        g.fillRoundedRectangle (place, 3.0f);
        g.setColour (isEven && i > 0 ? theme.quiet : theme.ink); // lug 1 stands out
        g.drawText (words, place, juce::Justification::centred, false);
    }
}

void HeadView::drawWireBed (juce::Graphics& g) const
{
    if (scene.model == nullptr)
        return;
    const auto& wires = scene.model->setup().wires;
    const float pixels = circle.getWidth() / static_cast<float> (scene.now->drum.diameter);
    const float half = 0.5f * static_cast<float> (wires.lengthShare) * circle.getWidth();
    g.setColour (wires.on ? themeOf (*this).quiet : themeOf (*this).mark);
    const int drawn = juce::jmin (wires.strands, 12);
    for (int i = 0; i < drawn; ++i)
    {
        const float y = circle.getCentreY() + pixels * static_cast<float> (wires.bedWidth) *
                                                  (static_cast<float> (i) / static_cast<float> (drawn - 1) - 0.5f);
        g.fillRect (circle.getCentreX() - half, y, 2.0f * half, 0.8f);
    }
}

void HeadView::mouseDown (const juce::MouseEvent& event)
{
    const auto from = event.position - circle.getCentre();
    const double place = 2.0 * static_cast<double> (from.getDistanceFromOrigin() / circle.getWidth());
    if (side != modal::HeadSide::batter || place > 1.0 || ! onStrike)
        return;
    double strength = event.mods.isShiftDown() ? hardest : event.mods.isAltDown() ? softest : 1.0;
    if (event.isPressureValid())
        strength = softest * std::pow (hardest / softest, static_cast<double> (event.pressure));
    const double angle = std::atan2 (from.y, from.x);
    onStrike (juce::jmin (place, 0.98), angle < 0.0 ? angle + modal::units::twoPi : angle, strength);
}

bool HeadView::keyPressed (const juce::KeyPress& key)
{
    if (side != modal::HeadSide::batter || ! onStrike)
        return false;
    const auto modifiers = key.getModifiers();
    if (key.getKeyCode() != juce::KeyPress::spaceKey && key.getKeyCode() != juce::KeyPress::returnKey)
        return false;
    onStrike (strokePlace, strokeAngle, modifiers.isShiftDown() ? hardest : modifiers.isAltDown() ? softest : 1.0);
    return true;
}

std::unique_ptr<juce::AccessibilityHandler> HeadView::createAccessibilityHandler()
{
    if (side == modal::HeadSide::resonant)
        return std::make_unique<juce::AccessibilityHandler> (*this, juce::AccessibilityRole::group);
    return std::make_unique<juce::AccessibilityHandler> (
        *this, juce::AccessibilityRole::button,
        juce::AccessibilityActions().addAction (juce::AccessibilityActionType::press,
                                                [this]
                                                {
                                                    if (onStrike)
                                                        onStrike (strokePlace, strokeAngle, 1.0);
                                                }));
}

} // namespace editor
