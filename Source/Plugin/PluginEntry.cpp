#include "Processor.h"

/** What JUCE's wrappers call. */
juce::AudioProcessor* JUCE_CALLTYPE createPluginFilter()
{
    return new plugin::Processor();
}
