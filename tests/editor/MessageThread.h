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

/** Looks on the message thread until something is so. False after ten minutes, longer than any of it takes on a busy machine. */
template <typename Condition>
bool waitUntil (const Condition& condition)
{
    constexpr juce::uint32 longest = 600000; // ms
    const auto begin = juce::Time::getMillisecondCounter();
    while (! fromMessageThread (condition))
    {
        if (juce::Time::getMillisecondCounter() - begin > longest)
            return false;
        juce::Thread::sleep (10);
    }
    return true;
}
