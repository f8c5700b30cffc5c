#pragma once

#include <string>
#include <vector>

/** The words that stand for modal's enumerations, each list in the order of its enumeration. Reader, writer, command line and
    reports share them. */
namespace files
{

inline const char* const drumFormat = "snarewright-drum";
inline constexpr int drumFormatVersion = 1;

inline const std::vector<std::string> bottomWords{ "head", "closed", "open" };
inline const std::vector<std::string> surroundWords{ "free", "baffled" };

inline const std::vector<std::string> mufflingShapeWords{ "patch", "ring" };
inline const std::vector<std::string> headSideWords{ "batter", "resonant" };
inline const std::vector<std::string> tipMaterialWords{ "wood", "nylon" };
inline const std::vector<std::string> hoopWords{ "flanged 1.6 mm", "flanged 2.3 mm", "cast", "wood" };

/** In place of a vent: none. In place of weather: no air at all. */
inline const char* const noneWord = "none";

} // namespace files
