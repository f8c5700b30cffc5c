// Any bytes as MIDI: every stroke that comes out can be played, every amount is a share.

#include "Plugin/Midi.h"

#include <algorithm>
#include <cstdint>
#include <cstdlib>

extern "C" int LLVMFuzzerTestOneInput (const std::uint8_t* data, std::size_t size)
{
    if (size == 0)
        return 0;

    static const auto stick = modal::solveStick ({});
    const plugin::MidiChoices choices{ data[0] % 17, (data[0] & 0x20) != 0, data[0] & 0x1F };

    // A stream of messages of one to four bytes.
    for (std::size_t at = 1; at < size;)
    {
        const auto length = std::min<std::size_t> (1 + data[at] % 4, size - at);
        const auto action = plugin::readMidi (data + at, static_cast<int> (length), choices);
        const auto blows = engine::blowsOf (action.stroke, stick, 0.178);

        if (! (action.amount >= 0.0 && action.amount <= 1.0) || action.note < 0 || action.note > 127)
            std::abort();
        for (int i = 0; i < blows.count; ++i)
            if (const auto& blow = blows.blow[static_cast<std::size_t> (i)];
                ! (blow.speed > 0.0 && blow.speed <= 100.0 && blow.radius < 0.178 && blow.hoopDistance > 0.0))
                std::abort();

        at += length;
    }
    return 0;
}
