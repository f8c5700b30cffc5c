// Any bytes as a state: no crash, and what could be read is written and read back the same.

#include "Plugin/DrumRequest.h"
#include "Plugin/StateDocument.h"

#include <cstdint>
#include <cstdlib>

extern "C" int LLVMFuzzerTestOneInput (const std::uint8_t* data, std::size_t size)
{
    const auto reading = plugin::readState ({ reinterpret_cast<const char*> (data), size });

    if (! reading.isUsable)
        return reading.messages.empty() || reading.state.live != plugin::initialValues() ? (std::abort(), 0) : 0;

    const auto again = plugin::readState (plugin::writeState (reading.state));
    if (! again.isUsable || again.state.live != reading.state.live || again.state.snapshots != reading.state.snapshots ||
        again.state.name != reading.state.name)
        std::abort();

    // Whatever was read can be asked for; the drum itself is for the solver to judge.
    (void)plugin::requestOf (reading.state.live);
    return 0;
}
