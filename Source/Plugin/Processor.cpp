#include "Processor.h"

#include "PatternBook.h"

namespace plugin
{
juce::AudioProcessor::BusesProperties Processor::buses()
{
    // In hosts the input is a side chain that is off by default. In the standalone instrument nothing could switch it on. In LV2
    // a bus that is off is an optional port, which a host may leave without a buffer, and JUCE 7's wrapper crashes reading it.
    const auto format = juce::PluginHostType::getPluginLoadedAs();
    const bool isOnAtFirst = format == wrapperType_Standalone || format == wrapperType_LV2;
    const auto mono = juce::AudioChannelSet::mono();
    return BusesProperties()
        .withInput ("Listen", juce::AudioChannelSet::stereo(), isOnAtFirst)
        .withOutput ("Mix", juce::AudioChannelSet::stereo(), true)
        .withOutput ("Above", mono, false)
        .withOutput ("Below", mono, false)
        .withOutput ("Distant", mono, false);
}

Processor::Processor (MakeEditor makeEditor, PresetLibrary presetLibrary)
    : juce::AudioProcessor (buses()), editorMaker (std::move (makeEditor)), library (std::move (presetLibrary)),
      due (static_cast<std::size_t> (mostDue)), solver (sound, messageList, [this] { drumBroadcaster.sendChangeMessage(); })
{
    setParameterTree (makeParameters (sound, parameters));
    recorder = std::make_unique<UndoRecorder> (parameters, undo, [this] (const Values& values) { setParameters (values); });
    patternBook(); // read here, so that the audio thread does not
}

Processor::~Processor() = default;

const juce::String Processor::getName() const
{
    return SNAREWRIGHT_PRODUCT_NAME;
}

bool Processor::isBusesLayoutSupported (const BusesLayout& layout) const
{
    const auto main = layout.getMainOutputChannelSet();

    if (main != juce::AudioChannelSet::stereo() && main != juce::AudioChannelSet::mono())
        return false;

    for (int bus = 1; bus < layout.outputBuses.size(); ++bus)
        if (! layout.outputBuses[bus].isDisabled() && layout.outputBuses[bus] != juce::AudioChannelSet::mono())
            return false;

    return std::all_of (layout.inputBuses.begin(), layout.inputBuses.end(),
                        [] (const juce::AudioChannelSet& input) {
                            return input.isDisabled() || input == juce::AudioChannelSet::mono() ||
                                   input == juce::AudioChannelSet::stereo();
                        });
}

void Processor::prepareToPlay (double sampleRate, int)
{
    const auto rate = juce::jlimit (22050.0, 192000.0, sampleRate);

    if (rate != sampleRate)
        messageList.say (Messages::Kind::refusal,
                         "A sample rate of " + std::to_string (std::lround (sampleRate)) +
                             " Hz is outside 22050 to 192000 Hz; the drum would sound at another pitch and stays silent.");

    if (sampleRate != playedRate.load())
        inputListener.setSampleRate (sampleRate);

    solver.setSampleRate (rate);
    solver.waitUntilSolved();
    playedRate.store (sampleRate);

    if (rate == sampleRate)
    {
        player.room().prepare (rate);
        roomOnItsWay.reset();
        if (const std::unique_ptr<RoomDelivery> delivery (solver.rooms().take()); delivery != nullptr && delivery->sampleRate == rate)
            player.room().set (std::move (delivery->room));
        player.prepare (solver.latestModel(), sound.effective());
    }

    freeBeat = 0.0;
    wasPatternOn = false;
}

juce::AudioProcessorEditor* Processor::createEditor()
{
    return editorMaker ? editorMaker (*this).release() : new juce::GenericAudioProcessorEditor (*this);
}

const juce::String Processor::getProgramName (int)
{
    return presetName();
}

} // namespace plugin
