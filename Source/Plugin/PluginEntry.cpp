#include "Processor.h"

#include "Editor/Editor.h"

#include <juce_audio_devices/juce_audio_devices.h>
#include <juce_audio_utils/juce_audio_utils.h>

#include <juce_audio_plugin_client/Standalone/juce_StandaloneFilterWindow.h>

namespace
{

/** JUCE's standalone window mutes the input at first, against feedback. Snarewright never plays its input
    (tests/plugin/ListeningTest.cpp) and needs it for the lug check. A choice made under Options is kept. */
void openInputOnFirstStart()
{
    if (auto* holder = juce::StandalonePluginHolder::getInstance())
        if (holder->settings != nullptr && ! holder->settings->containsKey ("shouldMuteInput"))
            holder->getMuteInputValue() = false;
}

std::unique_ptr<juce::AudioProcessorEditor> makeEditor (plugin::Processor& processor)
{
    // The window around the editor does not exist yet.
    if (processor.wrapperType == juce::AudioProcessor::wrapperType_Standalone)
        juce::MessageManager::callAsync (openInputOnFirstStart);

    return editor::makeEditor (processor);
}

} // namespace

/** Called by JUCE's wrappers. */
juce::AudioProcessor* JUCE_CALLTYPE createPluginFilter()
{
    return new plugin::Processor (makeEditor);
}
