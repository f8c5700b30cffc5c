#pragma once

#include "LiveSound.h"
#include "Values.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace plugin
{

/** Everything that a song or a preset saves.

        { "format": "snarewright-state", "version": 1, "name": "Dry fifth",
          "sound": { "batter_note": 54, "interval": 7, "diameter_in": 14, "bottom": "resonant head", ... },
          "snapshot_a": { ... }, ... "snapshot_h": { ... } }

    Under "sound", the key of each parameter is its identifier and unit; choices are words, toggles true or false. */
struct State
{
    std::string name;
    Values live = initialValues();
    std::array<std::optional<Values>, LiveSound::snapshotCount> snapshots; ///< A to H

    /** Unknown members of the document and of "sound" (from a newer version), each as a JSON object; written back unchanged. */
    std::string unknown = "{}", unknownInSound = "{}";
};

struct StateReading
{
    State state;
    bool isUsable = true;              ///< false: nothing could be read, and `state` is the initial one
    std::vector<std::string> messages; ///< errors, one sentence each
};

/** Does not throw, whatever the document holds. A parameter that is missing (as from an older version) or invalid gets its
   initial value; invalid ones are reported. */
StateReading readState (std::string_view document);

std::string writeState (const State&);

/** The largest document that is read, bytes. */
inline constexpr std::size_t largestState = 1024 * 1024;

} // namespace plugin
