#pragma once

#include "Engine/Drum.h"
#include "Modal/Tuning.h"
#include "Modal/Units.h"

#include <memory>
#include <vector>

/** Drums for the engine's tests. */
namespace testdrum
{

/** A 14 × 5.5 inch drum whose heads tap at 238 and 318 Hz, up to `highest` Hz, without microphones. */
inline engine::DrumSetup snare (double highest = 1500.0, double sampleRate = 48000.0)
{
    const modal::DrumSpec spec;
    modal::Tuning tuning;
    tuning.target = modal::ByTapNotes{ 238.0, 318.0 };
    const auto tensions = modal::tensionsFor (spec, tuning);
    modal::SolveOptions options;
    options.highestFrequency = highest;
    auto setup = engine::setUp (spec, tensions, modal::solve (spec, tensions, options), {});
    setup.sampleRate = sampleRate;
    return setup;
}

/** The same with lugs that are off and something laid on its batter head: no symmetry is left to the wires. */
inline engine::DrumSetup uneven (double highest = 1500.0)
{
    modal::DrumSpec spec;
    spec.muffling.emplace_back();
    auto setup = snare (highest);
    setup.tensions.batterLugs.assign (static_cast<std::size_t> (spec.lugs), 0.0);
    setup.tensions.batterLugs[1] = 0.1;
    setup.tensions.resonantLugs = setup.tensions.batterLugs;
    modal::SolveOptions options;
    options.highestFrequency = highest;
    setup.modes = modal::solve (spec, setup.tensions, options);
    return setup;
}

/** A drum with nothing that takes energy: no loss in modes, wires, stick or contacts. */
inline engine::DrumSetup lossless (engine::DrumSetup setup)
{
    for (auto& mode : setup.modes.modes)
        mode.decay = {};
    setup.wires.contactLoss = 0.0;
    setup.wires.decayRate = 0.0;
    setup.wires.decayPerOscillation = 0.0;
    setup.wires.strapLoss = 0.0;
    for (auto* stick : { &setup.stick, &setup.laidStick })
    {
        stick->contactDamping = 0.0;
        for (auto& mode : stick->mode)
            mode.decay = 0.0;
    }
    setup.batterDensity = setup.resonantDensity = 0.0; // what is not known radiates nothing above the modes
    return setup;
}

/** A surface that does not give: one axisymmetric mode of a head that weighs a thousand tonnes. */
inline engine::DrumSetup anvil (double sampleRate)
{
    engine::DrumSetup setup;
    setup.modes.radius = 0.1;
    setup.modes.depth = 0.1;
    setup.modes.bottom = modal::Bottom::closed;
    setup.modes.basis.push_back ({ 0, 1, modal::Parity::cosine, 2.404825557695773 });
    modal::Mode mode;
    mode.frequency = 1000.0;
    setup.modes.modes.push_back (mode);
    setup.modes.batter = Eigen::MatrixXd::Constant (1, 1, 1.0e-6);
    setup.modes.resonant = Eigen::MatrixXd::Zero (1, 1);
    setup.sampleRate = sampleRate;
    setup.stick = setup.laidStick = modal::pointMass (0.014, 8.0e5);
    return setup;
}

/** What the tip of the first stick pushes with, N. */
template <typename Scalar>
double tipForce (const engine::BasicDrum<Scalar>& drum)
{
    return drum.state().sticks[0].at (engine::StickContactKind::tip).force;
}

/** Energy now plus all that was lost, less all that was put in: zero for a perfect balance. J. */
template <typename Scalar>
double imbalance (const engine::BasicDrum<Scalar>& drum)
{
    const auto& flows = drum.energyFlows();
    return drum.energy() + flows.contactLoss + flows.modalLoss - flows.work;
}

/** The sound of every microphone. */
template <typename Scalar>
std::vector<std::vector<Scalar>> run (engine::BasicDrum<Scalar>& drum, int frames)
{
    std::vector<std::vector<Scalar>> sound (static_cast<std::size_t> (drum.model().microphones()),
                                            std::vector<Scalar> (static_cast<std::size_t> (frames)));
    std::vector<Scalar*> outputs;
    for (auto& channel : sound)
        outputs.push_back (channel.data());
    drum.process (outputs.data(), frames);
    return sound;
}

/** The sound of the first microphone. */
template <typename Scalar>
std::vector<Scalar> listen (engine::BasicDrum<Scalar>& drum, int frames)
{
    return run (drum, frames).front();
}

} // namespace testdrum
