#pragma once

#include <array>
#include <string>
#include <vector>

/** The words that stand for modal's enumerations, each list in the order of its enumeration. Reader, writer, command line and
    reports share them. */
namespace files
{

inline const char* const drumFormat = "snarewright-drum";

/** Version 2 added microphones, pattern and window; version 1 is read as it is. */
inline constexpr int drumFormatVersion = 2;

inline const std::vector<std::string> bottomWords{ "head", "closed", "open" };
inline const std::vector<std::string> surroundWords{ "free", "baffled" };

inline const std::vector<std::string> mufflingShapeWords{ "patch", "ring" };
inline const std::vector<std::string> headSideWords{ "batter", "resonant" };
inline const std::vector<std::string> tipMaterialWords{ "wood", "nylon", "felt" };
inline const std::vector<std::string> brushMaterialWords{ "steel", "nylon" };

inline const std::array<const char*, 3> microphoneWords{ "above", "below", "distant" };
inline const std::vector<std::string> placeKindWords{ "room", "open air" };

/** In place of a vent: none. In place of weather: no air at all. */
inline const char* const noneWord = "none";

} // namespace files
