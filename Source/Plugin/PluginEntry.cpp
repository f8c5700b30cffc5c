#include "Processor.h"

#include "Editor/Editor.h"

/** What JUCE's wrappers call. */
juce::AudioProcessor* JUCE_CALLTYPE createPluginFilter()
{
    return new plugin::Processor (editor::makeEditor);
}
