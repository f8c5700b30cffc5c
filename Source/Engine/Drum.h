#pragma once

#include "DelayLine.h"
#include "DrumModel.h"
#include "Stroke.h"
#include "UpperBandSound.h"

#include <memory>
#include <vector>

namespace engine
{

/** Pressure that makes a full-scale sample: 63.2 Pa, a level of 130 dB over 20 µPa. Caution: played back at its own level a drum
   can harm hearing. */
inline constexpr double fullScalePressure = 63.2456;

/** What a striker did, once it has left. */
struct BlowReport
{
    double contactTime = 0.0;  ///< s, all contacts of the blow together
    double peakForce = 0.0;    ///< N
    double reboundShare = 0.0; ///< speed away over speed of approach
};

/** A drum that is played: one state that rings on from stroke to stroke and from model to model.

    process(), strike(), setModel() and reset() belong to one thread, which may be an audio thread: none of them allocates, locks,
    throws or prints. There is no latency. */
template <typename Scalar>
class BasicDrum
{
public:
    using Model = BasicDrumModel<Scalar>;

    explicit BasicDrum (std::shared_ptr<const Model>);

    /** Writes `frames` samples of each microphone, full scale 1 (see fullScalePressure). */
    void process (Scalar* const* outputs, int frames) noexcept;

    /** A stroke that lands `sampleOffset` samples from now; false if too many wait already for all of it (it is then dropped as a
        whole). Values out of range are brought into range. */
    bool strike (const Stroke&, int sampleOffset = 0) noexcept;
    bool strike (const Blow&, int sampleOffset = 0) noexcept;

    /** Goes on with another model of the same sample rate; what rings, rings on. Returns the former model, so that its memory
        can be given back on another thread. No model, or one of another rate, is not taken and comes back itself. */
    std::shared_ptr<const Model> setModel (std::shared_ptr<const Model>) noexcept;

    /** Silence, wires at rest, no strokes waiting. */
    void reset() noexcept;

    const Model& model() const noexcept { return *current; }
    bool isSilent() const noexcept { return silent; }

    /** Energy of everything that moves, J; zero at rest. Counts flows of energy from here on. */
    double energy() const noexcept;
    const EnergyFlows& energyFlows() const noexcept { return flows; }
    void countEnergy (bool shouldCount) noexcept { view.countsEnergy = shouldCount; }

    /** The last blow that has ended. */
    const BlowReport& lastBlow() const noexcept { return report; }

    const KernelView<Scalar>& state() const noexcept { return view; }

    /** For tests: how finely contacts settle. N, a share of the largest force beyond rest on top, and sweeps a sample. */
    void setTolerance (double newtons, double share, int mostSweeps) noexcept;
    /** For tests: the share of a head's tension below which its rise is left out; 0: never left out. */
    void setLeastTensionRise (double share) noexcept { view.tension.least = share; }
    /** For benchmarks: another inner loop; any fits any model of its precision. */
    void setKernel (KernelFunction<Scalar> loop) noexcept { run = loop; }

private:
    struct Waiting
    {
        Blow blow;
        int samples;
    };

    /** Goes on from where a signal was heading before it stepped, and lets the difference fade. */
    struct Bridge
    {
        Scalar last = 0, slope = 0, difference = 0;

        Scalar next (Scalar in, bool steps, Scalar decay) noexcept
        {
            if (steps)
                difference = last + slope - in;
            const Scalar out = in + difference;
            difference *= decay;
            slope = out - last;
            last = out;
            return out;
        }
    };

    double ringingEnergy() const noexcept;
    void limitRinging (double most) noexcept;
    void connect() noexcept;
    void connectMicrophones() noexcept;
    void restWires() noexcept;
    void runSpan (Scalar* const* outputs, int frames) noexcept;
    void land (const Blow&) noexcept;
    void shapeStriker (int slot) noexcept;
    void dentUnder (int slot) noexcept;
    double surfaceUnder (int slot) const noexcept;
    void measureStriker (int slot) noexcept;
    void watchTension() noexcept;
    void restTension() noexcept;
    void meetTension() noexcept;
    void putAway (StrikerState&) noexcept;
    void retireStrikers() noexcept;
    void fallAsleepIfStill() noexcept;
    int freeSlot() noexcept;

    std::shared_ptr<const Model> current;
    KernelView<Scalar> view;
    KernelFunction<Scalar> run;
    EnergyFlows flows;
    AlignedArray<Scalar> position, step, trial, push, takenPosition, takenStep;
    AlignedArray<Scalar> force, forceBefore, compression, compressionBefore, scratch;
    std::array<StrikerState, maxStrikers> strikers;
    std::array<Blow, maxStrikers> landed{};
    std::array<AlignedArray<Scalar>, maxStrikers> strikerShape, strikerToWire;
    std::vector<double> field;
    std::array<Waiting, 64> waiting;
    int waitingCount = 0;
    int untilTidied = 0; ///< samples until strikers that have left are put away
    UpperBandSound<Scalar> upperBand;
    std::vector<DelayLine<Scalar>> delayLines;
    std::array<Bridge, maxMicrophones> bridgeOfPressure, bridgeOfDelay;
    bool measuresJump = false;
    Scalar jumpDecay = 0;
    bool silent = true;
    BlowReport report;
};

using Drum = BasicDrum<float>;
using ExactDrum = BasicDrum<double>;

} // namespace engine
