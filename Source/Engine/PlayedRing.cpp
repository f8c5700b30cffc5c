#include "PlayedRing.h"

#include "Bank.h"
#include "Drum.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <memory>
#include <vector>

namespace engine
{
namespace
{
constexpr double longestTime = 3.0;                   // s
constexpr double enough = -50.0;                      // dB under the loudest
constexpr double startLevel = -5.0, endLevel = -35.0; // dB, as ISO 3382 takes a room's reverberation time
constexpr int ringBlock = 32;                         // frames

/** Where the bank has the mode of the drum note, or -1. */
int placeOfDrumNote (const DrumSetup& setup)
{
    const auto& modes = setup.modes.modes;
    const auto lowest = std::find_if (modes.begin(), modes.end(), [] (const auto& mode) { return ! mode.isAirMode; });
    const auto entries = buildBank (setup).entries;
    const auto found = std::find_if (entries.begin(), entries.end(),
                                     [&] (const auto& entry) {
                                         return entry.kind == BankEntry::Kind::head &&
                                                entry.drumMode == static_cast<int> (lowest - modes.begin());
                                     });
    return found == entries.end() ? -1 : static_cast<int> (found - entries.begin());
}

/** Level of one mode's energy, dB, once a block. */
std::vector<double> levelsOf (const DrumSetup& setup, int mode, const Stroke& stroke)
{
    const auto recursion = buildBank (setup).entries[static_cast<std::size_t> (mode)].recursion;
    Drum drum (std::make_shared<const DrumModel> (setup));
    drum.strike (stroke);

    std::array<std::array<float, ringBlock>, maxMicrophones> buffers{};
    std::array<float*, maxMicrophones> outputs{};
    for (std::size_t m = 0; m < outputs.size(); ++m)
        outputs[m] = buffers[m].data();

    std::vector<double> levels;
    double loudest = -1.0e9;
    for (int frame = 0; frame < longestTime * setup.sampleRate; frame += ringBlock)
    {
        drum.process (outputs.data(), ringBlock);
        const auto energy =
            recursion.energy (static_cast<double> (drum.state().position[mode]), static_cast<double> (drum.state().step[mode]));
        levels.push_back (10.0 * std::log10 (std::max (energy, 1.0e-30)));
        loudest = std::max (loudest, levels.back());
        if (levels.back() < loudest + enough)
            break;
    }
    return levels;
}
} // namespace

double playedRing (const DrumSetup& setup, double position, double speed)
{
    const int mode = placeOfDrumNote (setup);
    if (mode < 0)
        return 0.0;

    Stroke stroke;
    stroke.position = position;
    stroke.speed = speed;
    const auto levels = levelsOf (setup, mode, stroke);
    const auto loudest = *std::max_element (levels.begin(), levels.end());
    // The last block in which the mode is above a level, since its energy may rise again for a moment.
    const auto lastAbove = [&] (double level)
    {
        const auto last = std::find_if (levels.rbegin(), levels.rend(), [&] (double l) { return l > loudest + level; });
        return static_cast<int> (levels.rend() - last);
    };
    const auto start = lastAbove (startLevel);
    const auto end = std::min (lastAbove (endLevel), static_cast<int> (levels.size()) - 1);
    const auto fall = levels[static_cast<std::size_t> (start)] - levels[static_cast<std::size_t> (end)];
    return fall > 0.0 ? 60.0 / fall * (end - start) * ringBlock / setup.sampleRate : std::numeric_limits<double>::infinity();
}

} // namespace engine
