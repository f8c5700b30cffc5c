#include "SolvedDrum.h"

#include "Engine/PlayedBand.h"

#include <algorithm>

namespace plugin
{
namespace
{
/** The prediction shows modes up to here, Hz, and to half the played band where that is higher. */
constexpr double predictedBand = 1000.0;
} // namespace

modal::SolveOptions playedModes (const modal::DrumSpec& drum, const modal::Tensions& tensions)
{
    modal::SolveOptions options;
    options.highestFrequency = engine::playedBand (drum, tensions);
    return options;
}

modal::SolveOptions predictedModes (modal::SolveOptions options)
{
    // The notes and pairs of a prediction lie low, and with uneven lugs the cost rises with the cube of the number of modes.
    options.highestFrequency = std::min (options.highestFrequency, std::max (predictedBand, 0.5 * options.highestFrequency));
    return options;
}

engine::DrumSetup setUpDrum (const DrumRequest& request, const modal::Tensions& tensions, modal::DrumModes modes,
                             double sampleRate)
{
    auto setup = engine::setUp (request.drum, tensions, std::move (modes), { request.wires, request.hoop, request.stick });
    setup.microphones = request.microphones;
    setup.sampleRate = sampleRate;
    return setup;
}

} // namespace plugin
