#include "AuditionBar.h"

#include "ParameterBinding.h"
#include "Strings.h"

#include "Modal/pitch/Interval.h"
#include "Plugin/DrumRequest.h"
#include "Score/MidiNotes.h"

namespace editor
{
namespace
{
using engine::StrokeKind;
using plugin::Parameter;

struct StrokeButton
{
    CommandText words;
    StrokeKind kind;
    double place; ///< share of the radius
};

const StrokeButton strokeButtons[] = {
    { { "Centre", "Stroke at the centre", "Strikes the centre: a short, dry sound (key 1)." }, StrokeKind::tip, 0.03 },
    { { "Off centre", "Stroke off centre", "Strikes a quarter of the way from centre to edge, the usual place (key 2)." },
      StrokeKind::tip,
      0.25 },
    { { "Edge", "Stroke near the edge", "Strikes near the edge: stronger overtones, weaker drum note (key 3)." },
      StrokeKind::tip,
      0.85 },
    { { "Rimshot", "Rimshot", "Strikes head and hoop almost at once (key 4)." }, StrokeKind::rimshot, 0.25 },
    { { "Cross-stick", "Cross-stick", "The stick lies on the head and its shaft strikes the hoop (key 5)." },
      StrokeKind::crossStick,
      0.4 },
    { { "Buzz", "Buzz stroke", "The stick is pressed into the head and bounces (key 6)." }, StrokeKind::buzz, 0.25 },
    { { "Double", "Double stroke", "Two strokes in one motion of the hand (key 7)." }, StrokeKind::doubleStroke, 0.25 },
    { { "Brush sweep", "Sweep of a brush", "A brush sweeps round the centre for a second; choose one in Set up (key 8)." },
      StrokeKind::sweep,
      0.5 },
};

constexpr double sweepTime = 1.0; // s

ValueBinding speedBinding (double& speed)
{
    ValueBinding binding;
    binding.low = 0.25;
    binding.high = 10.0;
    binding.step = 0.5;
    binding.fineStep = 0.05;
    binding.get = [&speed] { return speed; };
    binding.set = [&speed] (double value) { speed = juce::jlimit (0.25, 10.0, value); };
    binding.toText = [] (double value) { return juce::String (value, 2) + " m/s"; };
    binding.type = [&speed] (const juce::String& typed) -> juce::String
    {
        const auto number = typed.retainCharacters ("0123456789.");
        const double value = number.getDoubleValue();
        if (number.isEmpty() || value < 0.25 || value > 10.0)
            return strings::speedRange;
        speed = value;
        return {};
    };
    return binding;
}

} // namespace

AuditionBar::AuditionBar (plugin::Processor& p)
    : processor (p), speedOfStroke (strings::strokeSpeed(), speedBinding (strokeSpeed)),
      intervals (p),
      sweepAll (strings::sweep,
                [this]
                {
                    if (intervals.isRunning())
                        intervals.stop();
                    else
                        intervals.start (strokeOf (StrokeKind::tip, 0.25));
                })
{
    setTitle (strings::auditionTitle);
    setFocusContainerType (FocusContainerType::focusContainer);
    for (const auto& each : strokeButtons)
    {
        const auto number = static_cast<int> (strokes.size());
        strokes.push_back (std::make_unique<DragButton> (each.words, [this, number] { play (number); }));
        strokes.back()->setTooltip (juce::String (each.words.tip) + " " + strings::dragStroke);
        strokes.back()->onDragOut = [this, number] (const juce::MouseEvent& event)
        {
            const auto& stroke = strokeButtons[number];
            if (onDragOut)
                onDragOut (*strokes[static_cast<std::size_t> (number)], stroke.words.face, strokeOf (stroke.kind, stroke.place),
                           event.mods);
        };
        // A stroke sounds on mouse down, without waiting for the release.
        strokes.back()->setTriggeredOnMouseDown (true);
        addAndMakeVisible (*strokes.back());
    }
    addAndMakeVisible (speedOfStroke);
    addAndMakeVisible (sweepAll);
    intervals.onStroke = [this] (const engine::Stroke& stroke)
    {
        if (onStroke)
            onStroke (stroke);
    };
    intervals.onStep = [this]
    {
        if (onTrying)
            onTrying (intervals.isRunning());
        sweepAll.setToggleState (intervals.isRunning(), juce::dontSendNotification);
        sweepAll.setButtonText (
            intervals.isRunning()
                ? juce::String (modal::namedIntervals()[static_cast<std::size_t> (intervals.interval())].shortName) + " ..."
                : juce::String (strings::sweep.face));
    };
}

AuditionBar::~AuditionBar()
{
    intervals.onStep = {};
}

engine::Stroke AuditionBar::strokeOf (StrokeKind kind, double place) const
{
    const auto si = [this] (Parameter which)
    {
        const auto& parameter = processor.parameter (which);
        return parameter.spec().toSi (parameter.plainValue());
    };
    engine::Stroke stroke;
    stroke.kind = kind;
    stroke.position = place;
    stroke.angle = si (Parameter::strokeAngle);
    stroke.speed = kind == StrokeKind::sweep ? score::speedOfVelocity (score::velocityOfSpeed (strokeSpeed), kind) : strokeSpeed;
    stroke.sweepForce = si (Parameter::sweepForce);
    stroke.sweepTime = sweepTime;
    stroke.rimLag = si (Parameter::rimLag);
    stroke.pressForce = si (Parameter::pressForce);
    stroke.pressTime = si (Parameter::pressTime);
    stroke.secondDelay = si (Parameter::doubleDelay);
    stroke.secondShare = si (Parameter::doubleShare);
    return stroke;
}

void AuditionBar::play (int number)
{
    if (number < 0 || number >= static_cast<int> (std::size (strokeButtons)) || ! onStroke ||
        ! strokes[static_cast<std::size_t> (number)]->isEnabled())
        return;
    onStroke (strokeOf (strokeButtons[number].kind, strokeButtons[number].place));
}

void AuditionBar::strikeAt (double place, double angle, double strength)
{
    auto stroke = strokeOf (StrokeKind::tip, place);
    stroke.angle = angle;
    stroke.speed = juce::jlimit (0.05, 12.0, strength * strokeSpeed);
    if (onStroke)
        onStroke (stroke);
}

void AuditionBar::refresh()
{
    const bool hasBrush = plugin::stickOf (processor.effectiveValues()).isBrush();
    for (std::size_t i = 0; i < strokes.size(); ++i)
        strokes[i]->setEnabled (hasBrush || strokeButtons[i].kind != StrokeKind::sweep);
    sweepAll.setEnabled (processor.parameter (Parameter::bottom).plainValue() < 0.5);
}

void AuditionBar::resized()
{
    auto area = getLocalBounds().reduced (0, 2);
    const auto take = [&, unit = static_cast<float> (getWidth()) / 100.0f] (float share)
    { return area.removeFromLeft (juce::roundToInt (share * unit)); };
    for (auto& button : strokes)
        button->setBounds (take (9.3f));
    take (0.6f);
    speedOfStroke.setBounds (take (10.0f));
    take (0.6f);
    sweepAll.setBounds (area);
}

} // namespace editor
