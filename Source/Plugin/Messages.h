#pragma once

#include <cstdint>
#include <deque>
#include <mutex>
#include <string>

namespace plugin
{

/** Messages for the user: a tuning refused, a damaged state. Any thread but the audio thread. */
class Messages
{
public:
    enum class Kind
    {
        note,   ///< done
        refusal ///< not done
    };

    struct Message
    {
        std::uint64_t number = 0; ///< counts up; 0: none yet
        Kind kind = Kind::note;
        std::string text; ///< one sentence, UTF-8
    };

    void say (Kind kind, const std::string& text)
    {
        const std::scoped_lock lock (mutex);
        if (! kept.empty() && kept.back().text == text)
            kept.pop_back();
        kept.push_back ({ ++count, kind, text });
        if (kept.size() > most)
            kept.pop_front();
    }

    Message latest() const
    {
        const std::scoped_lock lock (mutex);
        return kept.empty() ? Message{} : kept.back();
    }

    std::deque<Message> all() const
    {
        const std::scoped_lock lock (mutex);
        return kept;
    }

private:
    static constexpr std::size_t most = 20;
    mutable std::mutex mutex;
    std::deque<Message> kept;
    std::uint64_t count = 0;
};

} // namespace plugin
