#pragma once

#include "LiveSound.h"

#include <juce_audio_processors/juce_audio_processors.h>

namespace plugin
{

/** A parameter for hosts and controls; its value is stored in LiveSound. Setting it is realtime safe. */
class DrumParameter final : public juce::RangedAudioParameter
{
public:
    DrumParameter (Parameter, LiveSound&);

    Parameter which() const noexcept { return parameter; }
    const ParameterSpec& spec() const { return specOf (parameter); }

    /** The value in the parameter's own unit. */
    double plainValue() const noexcept;
    /** Sets it as a user does, as one gesture that the host is told of. The value is clamped to the range. */
    void setPlainValue (double);
    /** The same as part of a gesture that the caller begins and ends. */
    void setWithoutGesture (double);

    /** Sets it from text. Returns an error message and leaves the value unchanged, or returns an empty string. */
    juce::String setText (const juce::String&);

    juce::String textOf (double plain) const;

    const juce::NormalisableRange<float>& getNormalisableRange() const override { return range; }
    float getValue() const override;
    void setValue (float normalised) override;
    float getDefaultValue() const override;
    juce::String getText (float normalised, int maximumLength) const override;
    float getValueForText (const juce::String&) const override;
    int getNumSteps() const override;
    bool isDiscrete() const override;
    bool isBoolean() const override;

private:
    Parameter parameter;
    LiveSound& sound;
    juce::NormalisableRange<float> range;
};

/** All parameters in groups, for the processor's constructor. `list` receives them in the order of the enumeration. */
juce::AudioProcessorParameterGroup makeParameters (LiveSound&, std::array<DrumParameter*, parameterCount>& list);

} // namespace plugin
