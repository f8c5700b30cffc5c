// The message thread is the main thread, as JUCE wants it; the tests run beside it and drive the window from outside, as a person
// does.
#define CATCH_CONFIG_RUNNER
#include "BareDisplay.h"

#include "tests/Catch.h"

#include <juce_events/juce_events.h>

#include <thread>

int main (int argc, char* argv[])
{
    nameWhatWindowManagersName();
    const juce::ScopedJuceInitialiser_GUI juce;
    int result = 0;
    std::thread tests (
        [&]
        {
            result = Catch::Session().run (argc, argv);
            juce::MessageManager::getInstance()->stopDispatchLoop();
        });
    juce::MessageManager::getInstance()->runDispatchLoop();
    tests.join();
    return result;
}
