#include "DrumParameter.h"

#include "ParameterText.h"

#include "Modal/InputError.h"

namespace plugin
{
namespace
{
juce::NormalisableRange<float> rangeOf (const ParameterSpec& spec)
{
    juce::NormalisableRange<float> range (static_cast<float> (spec.low), static_cast<float> (spec.high));
    if (spec.middle != 0.0)
        range.setSkewForCentre (static_cast<float> (spec.middle));
    return range;
}

/** Makes an identifier from a name: "Batter head" becomes "batter_head". */
juce::String groupId (const juce::String& name)
{
    return name.toLowerCase().replaceCharacter (' ', '_');
}
} // namespace

DrumParameter::DrumParameter (Parameter p, LiveSound& liveSound)
    : juce::RangedAudioParameter (juce::ParameterID{ specOf (p).id, 1 }, juce::String (specOf (p).name)), parameter (p),
      sound (liveSound), range (rangeOf (specOf (p)))
{
}

double DrumParameter::plainValue() const noexcept
{
    return spec().snapped (static_cast<double> (sound.live[parameter]));
}

void DrumParameter::setPlainValue (double plain)
{
    beginChangeGesture();
    setWithoutGesture (plain);
    endChangeGesture();
}

void DrumParameter::setWithoutGesture (double plain)
{
    setValueNotifyingHost (convertTo0to1 (static_cast<float> (spec().snapped (plain))));
}

juce::String DrumParameter::setText (const juce::String& text)
{
    try
    {
        const auto pitch = static_cast<double> (sound.live[Parameter::concertPitch]);
        setPlainValue (valueFrom (text.toStdString(), spec(), pitch));
        return {};
    }
    catch (const modal::InputError& e)
    {
        return juce::String::fromUTF8 (e.what());
    }
}

juce::String DrumParameter::textOf (double plain) const
{
    return juce::String::fromUTF8 (plugin::textOf (spec(), spec().snapped (plain)).c_str());
}

float DrumParameter::getValue() const
{
    return convertTo0to1 (sound.live[parameter]);
}

void DrumParameter::setValue (float normalised)
{
    const auto share = std::isfinite (normalised) ? juce::jlimit (0.0f, 1.0f, normalised) : getDefaultValue();
    const auto value = static_cast<float> (spec().snapped (static_cast<double> (convertFrom0to1 (share))));

    if (value == sound.live[parameter])
        return;

    sound.live.set (parameter, value);

    // A batter note set by hand or automation replaces one played by MIDI.
    if (parameter == Parameter::batterNote)
        sound.setPlayedNote (std::nullopt);

    if (spec().effect != Effect::playing)
        sound.noteChange();
}

float DrumParameter::getDefaultValue() const
{
    return convertTo0to1 (static_cast<float> (spec().initial));
}

juce::String DrumParameter::getText (float normalised, int maximumLength) const
{
    const auto text = textOf (static_cast<double> (convertFrom0to1 (juce::jlimit (0.0f, 1.0f, normalised))));
    return maximumLength > 0 ? text.substring (0, maximumLength) : text;
}

/** Text that cannot be read leaves the value unchanged: JUCE has no way to report an error to the host. */
float DrumParameter::getValueForText (const juce::String& text) const
{
    try
    {
        return convertTo0to1 (static_cast<float> (
            valueFrom (text.toStdString(), spec(), static_cast<double> (sound.live[Parameter::concertPitch]))));
    }
    catch (const modal::InputError&)
    {
        return getValue();
    }
}

int DrumParameter::getNumSteps() const
{
    return isDiscrete() ? juce::roundToInt (spec().high - spec().low) + 1 : AudioProcessorParameter::getNumSteps();
}

bool DrumParameter::isDiscrete() const
{
    return spec().measure == Measure::whole || spec().measure == Measure::choice || spec().measure == Measure::toggle;
}

bool DrumParameter::isBoolean() const
{
    return spec().measure == Measure::toggle;
}

juce::AudioProcessorParameterGroup makeParameters (LiveSound& sound, std::array<DrumParameter*, parameterCount>& list)
{
    juce::AudioProcessorParameterGroup all ({}, {}, {});
    std::unique_ptr<juce::AudioProcessorParameterGroup> group;

    for (std::size_t i = 0; i < parameterCount; ++i)
    {
        const juce::String name (parameterTable()[i].group);

        if (group != nullptr && group->getName() != name)
            all.addChild (std::move (group));
        if (group == nullptr)
            group = std::make_unique<juce::AudioProcessorParameterGroup> (groupId (name), name, "|");

        auto parameter = std::make_unique<DrumParameter> (static_cast<Parameter> (i), sound);
        list[i] = parameter.get();
        group->addChild (std::move (parameter));
    }

    all.addChild (std::move (group));
    return all;
}

} // namespace plugin
