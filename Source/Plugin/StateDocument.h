#pragma once

#include "Values.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace plugin
{

/** All that a song or a preset keeps.

        { "format": "snarewright-state", "version": 1, "name": "Dry fifth",
          "sound": { "batter_note": 54, "interval": 7, "diameter_in": 14, "bottom": "resonant head", ... },
          "snapshot_a": { ... }, "snapshot_b": { ... } }

    Under "sound", each parameter is named by its identifier and its unit; choices are words, toggles true or false. */
struct State
{
    std::string name;
    Values live = initialValues();
    std::optional<Values> a, b;

    /** Members that this version does not know, of the document and of "sound", each as a JSON object; they are written back as
       they came. */
    std::string unknown = "{}", unknownInSound = "{}";
};

struct StateReading
{
    State state;
    bool isUsable = true;              ///< false: nothing could be read, and the state is the initial one
    std::vector<std::string> messages; ///< what was wrong, one sentence each
};

/** Never throws for what a document may hold. A parameter that is missing (an older version did not have it) or wrong has its
    initial value; what is wrong is said. */
StateReading readState (std::string_view document);

std::string writeState (const State&);

/** The largest document that is read, bytes. */
inline constexpr std::size_t largestState = 1024 * 1024;

} // namespace plugin
