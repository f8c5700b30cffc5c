#include "PlayedRing.h"

#include "Bank.h"
#include "DecayTime.h"
#include "Drum.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <vector>

namespace engine
{
namespace
{
constexpr double longestTime = 3.0; // s
constexpr double enough = -50.0;    // dB under the loudest
constexpr int ringBlock = 32;       // frames

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
    return decayTime (levelsOf (setup, mode, stroke), ringBlock / setup.sampleRate);
}

} // namespace engine
