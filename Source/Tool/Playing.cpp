#include "Playing.h"

#include "Band.h"

#include "Engine/Bank.h"
#include "Engine/PlayedBand.h"
#include "Engine/PlayedRing.h"

#include <algorithm>

namespace tool
{

engine::DrumSetup setUpToPlay (const TunedDrum& tuned, std::vector<engine::Microphone> microphones, double sampleRate,
                               std::optional<double> highestFrequency, Detail detail)
{
    constexpr double liveModes = 400.0, fineModes = 1200.0;
    constexpr int mostStrands = 20, fineContacts = 24;

    const auto tensions = modal::tensionsFor (tuned.drum, tuned.tuning);
    modal::SolveOptions options;
    options.highestFrequency = std::min (
        highestFrequency.value_or (engine::playedBand (tuned.drum, tensions, detail == Detail::fine ? fineModes : liveModes)),
        engine::highestShareOfRate * sampleRate);
    auto modes = modal::solve (tuned.drum, tensions, options);
    requireDrumNote (modes, options.highestFrequency, tuned.drum, tensions);
    auto setup = engine::setUp (tuned.drum, tensions, std::move (modes), tuned.fittings);

    if (detail == Detail::fine)
        setup.wireDetail = { std::min (setup.wires.strands / 2 * 2, mostStrands), fineContacts, fineContacts };

    setup.microphones = std::move (microphones);
    setup.sampleRate = sampleRate;
    return setup;
}

reports::NamedPrediction predictAndPlay (const Arguments& arguments, const TunedDrum& tuned, const std::string& label)
{
    constexpr double usualHighestFrequency = 2000.0; // Hz
    reports::NamedPrediction named{ label, predictAsked (arguments, tuned, usualHighestFrequency), {}, {} };
    const bool hasWires = tuned.drum.hasResonantHead() && tuned.fittings.wires.on;

    if (! hasWires && ! arguments.has ("played"))
        return named;

    constexpr double sampleRate = 48000.0;
    const auto setup =
        setUpToPlay (tuned, { engine::defaultMicrophones (tuned.drum.depth).front() }, sampleRate, highestAsked (arguments));

    if (arguments.has ("played"))
        named.played = engine::playedResponse (setup);
    if (hasWires)
        named.ringWiresOn = named.played ? named.played->ringWiresOn : engine::playedRing (setup);

    return named;
}

} // namespace tool
