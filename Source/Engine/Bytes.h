#pragma once

#include "Modal/InputError.h"

#include <cstddef>
#include <cstdint>
#include <cstring>
#include <span>
#include <type_traits>
#include <vector>

/** Values as bytes, for a thread of the same build that shares no memory: an audio worklet in a browser. pass() names the members
   once, for both directions. */
namespace engine
{

/** Takes bytes of values in turn. */
class ByteWriter
{
public:
    static constexpr bool reads = false;

    void block (const void* from, std::size_t size)
    {
        const auto* bytes = static_cast<const std::byte*> (from);
        written.insert (written.end(), bytes, bytes + size);
    }

    std::vector<std::byte> written;
};

/** Gives them back in the same order. Throws modal::InputError where there are too few, or too many. */
class ByteReader
{
public:
    static constexpr bool reads = true;

    /** @param name  what the bytes hold, for errors */
    ByteReader (std::span<const std::byte> bytes, const char* name) noexcept : rest (bytes), what (name) {}

    void require (std::size_t size) const
    {
        if (size > rest.size())
            throw modal::InputError::fault (what, "is cut short", "all bytes that its write() gave");
    }

    void block (void* to, std::size_t size)
    {
        require (size);
        if (size > 0)
            std::memcpy (to, rest.data(), size);
        rest = rest.subspan (size);
    }

    void requireEnd() const
    {
        if (! rest.empty())
            throw modal::InputError::fault (what, "has bytes left over", "what its write() gave");
    }

private:
    std::span<const std::byte> rest;
    const char* what;
};

/** Plain data as it lies in memory; lists with their length; pairs and arrays member by member. A list keeps its memory where
   that is large enough. */
template <class Stream, class Value>
void passOne (Stream& stream, Value& value)
{
    if constexpr (std::is_trivially_copyable_v<Value>)
        stream.block (&value, sizeof (Value));
    else if constexpr (requires { value.first; })
    {
        passOne (stream, value.first);
        passOne (stream, value.second);
    }
    else
    {
        if constexpr (requires { typename Value::allocator_type; })
        {
            auto size = static_cast<std::uint32_t> (value.size());
            passOne (stream, size);
            if constexpr (Stream::reads)
            {
                stream.require (size); // at least a byte each
                value.resize (size);
            }
        }
        if constexpr (std::is_trivially_copyable_v<typename Value::value_type>)
            stream.block (value.data(), value.size() * sizeof (typename Value::value_type));
        else
            for (auto& item : value)
                passOne (stream, item);
    }
}

/** Writes or reads all of these, in this order. */
template <class Stream, class... Values>
void pass (Stream& stream, Values&... values)
{
    (passOne (stream, values), ...);
}

} // namespace engine
