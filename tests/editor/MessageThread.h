#pragma once

#include <juce_events/juce_events.h>

#include <functional>

/** Runs something on the message thread and waits for it. */
inline void onMessageThread (const std::function<void()>& work)
{
    juce::MessageManager::getInstance()->callFunctionOnMessageThread (
        [] (void* given) -> void*
        {
            (*static_cast<const std::function<void()>*> (given))();
            return nullptr;
        },
        const_cast<std::function<void()>*> (&work));
}

/** The result of something that runs on the message thread. */
template <typename Work>
auto fromMessageThread (const Work& work)
{
    decltype (work()) result{};
    onMessageThread ([&] { result = work(); });
    return result;
}

/** Looks on the message thread until something is so; false if it is not within the time. */
template <typename Condition>
bool waitUntil (const Condition& condition, int milliseconds = 60000)
{
    const auto end = juce::Time::getMillisecondCounter() + static_cast<juce::uint32> (milliseconds);
    while (! fromMessageThread (condition))
    {
        if (juce::Time::getMillisecondCounter() > end)
            return false;
        juce::Thread::sleep (10);
    }
    return true;
}
