#include "Processor.h"

#include "Editor/Editor.h"

#include <juce_audio_devices/juce_audio_devices.h>
#include <juce_audio_utils/juce_audio_utils.h>

#include <juce_audio_plugin_client/Standalone/juce_StandaloneFilterWindow.h>

namespace
{

/** JUCE's standalone window mutes the input until somebody unmutes it, since most programs that have one play it. This one never
    does (tests/plugin/ListeningTest.cpp), and muted it would hear nothing. What a person has chosen under Options stays. */
void openInputOnFirstStart()
{
    if (auto* holder = juce::StandalonePluginHolder::getInstance())
        if (holder->settings != nullptr && ! holder->settings->containsKey ("shouldMuteInput"))
            holder->getMuteInputValue() = false;
}

std::unique_ptr<juce::AudioProcessorEditor> makeEditor (plugin::Processor& processor)
{
    // The window around the editor is not there yet.
    if (processor.wrapperType == juce::AudioProcessor::wrapperType_Standalone)
        juce::MessageManager::callAsync (openInputOnFirstStart);

    return editor::makeEditor (processor);
}

} // namespace

/** What JUCE's wrappers call. */
juce::AudioProcessor* JUCE_CALLTYPE createPluginFilter()
{
    return new plugin::Processor (makeEditor);
}
