#pragma once

#include "DelayLine.h"
#include "DrumModel.h"
#include "Stroke.h"
#include "UpperBandSound.h"

#include <memory>
#include <vector>

namespace engine
{

/** Pressure that makes a full-scale sample: 63.2 Pa, a level of 130 dB over 20 µPa. Caution: a drum played back at its real level
   can harm hearing. */
inline constexpr double fullScalePressure = 63.2456;

/** What a stick did, once it has left, or a brush, once the last of its wires has. */
struct BlowReport
{
    double contactTime = 0.0;  ///< s that the tip was on the head, all contacts of the blow together; of a brush, the group that stayed longest
    double peakForce = 0.0;    ///< N, of the tip, or of all wires of a brush together
    double hoopForce = 0.0;    ///< N, peak of the shaft on the hoop
    double reboundShare = 0.0; ///< speed of the tip away over its speed of approach, without the stick's vibration
    double landingTime = 0.0;  ///< s from the first touch of a brush's wires to the last group's first
};

/** A playable drum: one state that keeps ringing from stroke to stroke and when the model changes.

    Call process(), strike(), setModel() and reset() from one thread, which may be the audio thread: none of them allocates,
   locks, throws or prints. There is no latency. */
template <typename Scalar>
class BasicDrum
{
public:
    using Model = BasicDrumModel<Scalar>;

    explicit BasicDrum (std::shared_ptr<const Model>);

    /** Writes `frames` samples of each microphone, full scale 1 (see fullScalePressure). */
    void process (Scalar* const* outputs, int frames) noexcept;

    /** Queues a stroke that lands `sampleOffset` samples from now. Returns false, and drops the whole stroke, if the queue is
       full. Values out of range are clamped. */
    bool strike (const Stroke&, int sampleOffset = 0) noexcept;
    bool strike (const Blow&, int sampleOffset = 0) noexcept;

    /** Lifts every brush that sweeps, as when a held note ends. A sweep that waits for its time still lands, and lifts at once. */
    void endSweeps() noexcept;

    /** Switches to another model of the same sample rate; the drum keeps ringing. Returns the former model, so that another
       thread can free it. A null model or one of another rate is refused and returned itself. */
    std::shared_ptr<const Model> setModel (std::shared_ptr<const Model>) noexcept;

    /** Silence, wires at rest, stroke queue empty. */
    void reset() noexcept;

    const Model& model() const noexcept { return *current; }
    bool isSilent() const noexcept { return silent; }

    /** Energy of everything that moves, J; zero at rest. */
    double energy() const noexcept;
    const EnergyFlows& energyFlows() const noexcept { return flows; }
    void countEnergy (bool shouldCount) noexcept { view.countsEnergy = shouldCount; }

    /** The last blow that has ended; of brushes, the last that came. */
    const BlowReport& lastBlow() const noexcept { return report; }

    const KernelView<Scalar>& state() const noexcept { return view; }

    /** For tests: convergence limits of the contact solver: N, a share of the largest force beyond rest on top, and sweeps a
       sample. */
    void setTolerance (double newtons, double share, int mostSweeps) noexcept;
    /** For tests: tension rises below this share of a head's tension are skipped; 0: never. */
    void setLeastTensionRise (double share) noexcept { view.tension.least = share; }
    /** For benchmarks: another inner loop of the same precision. */
    void setKernel (KernelFunction<Scalar> loop) noexcept { run = loop; }

private:
    struct Waiting
    {
        Blow blow;
        int samples;
    };

    /** Removes a step in a signal: continues from its extrapolated value and fades the difference out. */
    struct StepSmoother
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
    void resetWires() noexcept;
    void runSpan (Scalar* const* outputs, int frames) noexcept;
    void land (const Blow&) noexcept;
    void landBody (const Blow&, int group) noexcept;
    void setStick (StickState&, const Blow&) const noexcept;
    void setWires (StickState&, const Blow&, int group) const noexcept;
    void moveBrushes() noexcept;
    void shapeContacts (int slot) noexcept;
    void setFilm (StickState&) const noexcept;
    void hearStick (StickState&, const Blow&) const noexcept;
    double surfaceAt (int contact, const Scalar* position) const noexcept;
    void measureContacts (int slot) noexcept;
    void switchTension() noexcept;
    void resetTension() noexcept;
    void startTension() noexcept;
    void removeStick (StickState&) noexcept;
    void retireSticks() noexcept;
    void retireWires (StickState&) noexcept;
    void sleepIfSilent() noexcept;
    int freeSlot (bool isForWires) noexcept;

    std::shared_ptr<const Model> current;
    KernelView<Scalar> view;
    KernelFunction<Scalar> run;
    EnergyFlows flows;
    AlignedArray<Scalar> position, step, trial, push, takenPosition, takenStep;
    AlignedArray<Scalar> force, forceBefore, compression, compressionBefore, scratch;
    std::array<StickState, maxSticks> sticks;
    std::array<Blow, maxSticks> landed{}; ///< where they are now
    std::array<Blow, maxSticks> began{};  ///< as they came
    struct FanTouch                       ///< of the brush that landed last, in samples after it came
    {
        int count = 0, first = 0, last = 0, longest = 0;
    } fanTouch;
    int fansLanded = 0, tidyTurn = 0;
    std::array<AlignedArray<Scalar>, maxStickContacts> stickShape, stickToWire;
    std::vector<double> field;
    std::array<Waiting, 64> waiting;
    int waitingCount = 0;
    int untilTidied = 0; ///< samples until sticks that have left are removed
    UpperBandSound<Scalar> upperBand;
    std::vector<DelayLine<Scalar>> delayLines;
    std::array<StepSmoother, maxMicrophones> pressureSmoother, delaySmoother;
    bool smoothsStep = false;
    Scalar stepDecay = 0;
    bool silent = true;
    BlowReport report;
};

using Drum = BasicDrum<float>;
using ExactDrum = BasicDrum<double>;

} // namespace engine
