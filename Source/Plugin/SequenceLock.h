#pragma once

#include <array>
#include <atomic>
#include <cstdint>
#include <cstring>
#include <type_traits>

namespace plugin
{

/** A value protected by a sequence lock: one writer, which never waits, and any number of readers, which read again if the value
 * changed meanwhile. */
template <class Value>
class SequenceLock
{
    static_assert (std::is_trivially_copyable_v<Value>);

public:
    /** The one writer. */
    void set (const Value& value) noexcept
    {
        Words words{};
        std::memcpy (words.data(), &value, sizeof (Value));
        const auto before = version.load (std::memory_order_relaxed);
        version.store (before + 1, std::memory_order_relaxed); // odd: being written

        // Release: whoever reads one of these words sees the odd version too.
        for (std::size_t i = 0; i < wordCount; ++i)
            cells[i].store (words[i], std::memory_order_release);

        version.store (before + 2, std::memory_order_release);
    }

    /** Any thread. Only after the first set(). */
    Value get() const noexcept
    {
        Words words{};
        std::uint32_t before = 0;

        do
        {
            before = version.load (std::memory_order_acquire);

            for (std::size_t i = 0; i < wordCount; ++i)
                words[i] = cells[i].load (std::memory_order_acquire);
        } while (before % 2 != 0 || before != version.load (std::memory_order_relaxed));

        Value value;
        std::memcpy (static_cast<void*> (&value), words.data(),
                     sizeof (Value)); // trivially copyable
        return value;
    }

private:
    static constexpr std::size_t wordCount = (sizeof (Value) + sizeof (std::uint64_t) - 1) / sizeof (std::uint64_t);
    using Words = std::array<std::uint64_t, wordCount>;

    std::array<std::atomic<std::uint64_t>, wordCount> cells{};
    std::atomic<std::uint32_t> version{ 0 };
};

} // namespace plugin
