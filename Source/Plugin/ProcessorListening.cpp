// The lug check and strikes at the processor's audio input, or from files.

#include "Processor.h"

#include "HeardTuning.h"
#include "ParameterText.h"
#include "PlayedLike.h"
#include "SetValue.h"

#include "Modal/InputError.h"
#include "SoundFiles/AudioFile.h"

namespace plugin
{

bool Processor::hasInput() const
{
    return getBusCount (true) > 0 && getChannelCountOfBus (true, 0) > 0;
}

void Processor::reporting (const std::function<void()>& act)
{
    try
    {
        act();
    }
    catch (const modal::InputError& error)
    {
        report (error.what());
    }
}

fitting::HeadFitSetup Processor::headAsSet (modal::HeadSide side) const
{
    return { .drum = requestOf (sound.effective()).drum, .side = side };
}

fitting::DrumFitSetup Processor::drumAsSet (const KnownOfDrum& known) const
{
    return strikesOf (requestOf (sound.effective()).drum, known);
}

double Processor::inputRate() const noexcept
{
    constexpr double usual = 48000.0; // Hz, until the host has said
    const auto rate = playedRate.load();
    return rate > 0.0 ? rate : usual;
}

void Processor::startListening (modal::HeadSide side)
{
    reporting ([&] { inputListener.start (headAsSet (side), inputRate()); });
}

void Processor::startHearingStrikes (const KnownOfDrum& known)
{
    reporting ([&] { inputListener.start (drumAsSet (known), inputRate()); });
}

void Processor::setKnown (const KnownOfDrum& known)
{
    reporting ([&] { inputListener.setKnown (drumAsSet (known)); });
}

namespace
{
Listener::Load loaderOf (const juce::StringArray& paths)
{
    return [paths]
    {
        std::vector<std::pair<std::string, listening::Recording>> recordings;

        for (const auto& path : paths)
        {
            const auto name = juce::File (path).getFileName().toStdString();
            recordings.emplace_back (name, soundfiles::loadRecording (path.toStdString(), name));
        }

        return recordings;
    };
}
} // namespace

void Processor::hearLugCheck (modal::HeadSide side, const juce::String& path)
{
    reporting ([&] { inputListener.hearFiles (headAsSet (side), inputRate(), loaderOf ({ path })); });
}

void Processor::hearStrikes (const KnownOfDrum& known, const juce::StringArray& paths)
{
    reporting ([&] { inputListener.hearFiles (drumAsSet (known), inputRate(), loaderOf (paths)); });
}

void Processor::applyAnswer (const fitting::DrumAnswer& answer)
{
    reporting (
        [&]
        {
            auto values = sound.effective();
            setHeard (values, answer);
            setValues (values, "Set the drum to the strikes");
        });
}

void Processor::playLikeLastStrike()
{
    if (const auto solved = solvedDrum())
        inputListener.playLike (
            { solved->request.drum, solved->tensions, { solved->request.wires, solved->request.hoop, solved->request.stick } });
}

void Processor::applyLikeness (const PlayedLike& played)
{
    const auto& likeness = played.likeness;
    reporting (
        [&]
        {
            auto values = sound.effective();
            setMufflingAndWires (values, likeness.drum, likeness.fittings.wires);
            setSi (values, Parameter::wiresOn, likeness.hasWires ? 1.0 : 0.0);
            setSi (values, Parameter::morphOn, 0.0); // it would hide these values
            setValues (values, "Match the sound of the last strike");
        });
}

void Processor::hear (const listening::Recording& heard)
{
    const double ratio = heard.sampleRate / playedRate.load();
    const std::vector<float> samples (heard.samples.begin(), heard.samples.end());
    std::vector<float> played (static_cast<std::size_t> (static_cast<double> (samples.size()) / ratio));

    if (! played.empty())
        juce::LagrangeInterpolator().process (ratio, samples.data(), played.data(), static_cast<int> (played.size()),
                                              static_cast<int> (samples.size()), 0);

    clips.play (std::make_shared<const Clip> (Clip{ played, played }));
}

void Processor::applyMeasuredHead()
{
    const auto heard = inputListener.report();

    if (! heard->head || ! heard->head->isPossible)
        return;

    reporting (
        [&]
        {
            auto values = sound.effective();

            if (juce::roundToInt (valueOf (values, Parameter::lugs)) != static_cast<int> (heard->notes.size()))
                throw modal::InputError ("drum", textOf (specOf (Parameter::lugs), valueOf (values, Parameter::lugs)) + " lugs",
                                         std::to_string (heard->notes.size()) + " lugs, as in the lug check");

            setHeard (values, heard->side, *heard->head);
            setValues (values,
                       heard->side == modal::HeadSide::batter ? "Apply measured batter head" : "Apply measured resonant head");
        });
}

} // namespace plugin
