#include "Drum.h"

#include "ContactLaw.h"
#include "KernelDispatch.h"
#include "ScopedFlushToZero.h"

#include <Eigen/Core>

#include <algorithm>
#include <cmath>

namespace engine
{
namespace
{

/** J. A drum with less energy counts as silent: 90 dB below a very soft stroke (5 µJ), and about ten times the rounding noise of
   single precision in the tightest wires. */
constexpr double silence = 5.0e-15;

/** Fade time of the step in the output when the model changes, s. */
constexpr double stepFadeTime = 4.0e-3;

constexpr double longestDelay = 0.07; ///< s: 20 m at the lowest speed of sound

/** How often sticks that have left are removed, samples. Counted through all calls, so that the sound does not depend on how
   it is cut into blocks. */
constexpr int tidyEvery = 64;

/** A rise of a tension by this share is a quarter of a cent at most, which is inaudible: it is left out while playing. */
constexpr double smallestTensionRise = 3.0e-4;

/** While playing, contact forces converge to this share of the largest force beyond rest. Against a hundredth of this a stroke's
   level changes by less than 0.01 dB and the energy balance by 2e-5. */
constexpr double playingTolerance = 2.0e-2;

} // namespace

template <typename Scalar>
BasicDrum<Scalar>::BasicDrum (std::shared_ptr<const Model> model)
    : current (std::move (model)), run (kernelFor<Scalar>().run), position (maxModes), step (maxModes), trial (maxModes),
      push (maxModes), takenPosition (maxModes), takenStep (maxModes), force (maxContacts), forceBefore (maxContacts),
      compression (maxContacts), compressionBefore (maxContacts), scratch (8 * maxContacts),
      field (static_cast<std::size_t> (4 * maxModes)), upperBand (current->setup().sampleRate)
{
    for (auto& shape : stickShape)
        shape.resize (maxModes);
    for (auto& cross : stickToWire)
        cross.resize (maxContacts);
    for (int m = 0; m < maxMicrophones; ++m)
        delayLines.emplace_back (static_cast<int> (longestDelay * current->setup().sampleRate));
    const bool isForPlaying = sizeof (Scalar) == 4;
    setLeastTensionRise (isForPlaying ? smallestTensionRise : 0.0);
    setTolerance (isForPlaying ? 1.0e-6 : 1.0e-14, isForPlaying ? playingTolerance : 0.0, isForPlaying ? 24 : 400);
    connect();
    reset();
}

template <typename Scalar>
void BasicDrum<Scalar>::setTolerance (double newtons, double share, int mostSweeps) noexcept
{
    view.tolerance = static_cast<Scalar> (newtons);
    view.relativeTolerance = static_cast<Scalar> (share);
    view.maxSweeps = mostSweeps;
}

template <typename Scalar>
void BasicDrum<Scalar>::connect() noexcept
{
    current->connect (view);
    view.position = position.data();
    view.step = step.data();
    view.trial = trial.data();
    view.push = push.data();
    view.force = force.data();
    view.forceBefore = forceBefore.data();
    view.compression = compression.data();
    view.compressionBefore = compressionBefore.data();
    view.scratch = scratch.data();
    view.sticks = sticks.data();
    view.flows = &flows;
    for (std::size_t j = 0; j < maxStickContacts; ++j)
    {
        view.stickShape[j] = stickShape[j].data();
        view.stickToWire[j] = stickToWire[j].data();
    }
    stepDecay = static_cast<Scalar> (std::exp (-current->interval() / stepFadeTime));
    connectMicrophones();
    upperBand.connect (*current);
}

template <typename Scalar>
void BasicDrum<Scalar>::connectMicrophones() noexcept
{
    // The nearest microphone has no delay; the others have the difference in travel time.
    double nearest = 1.0e9;
    for (int m = 0; m < current->microphones(); ++m)
        nearest = std::min (nearest, current->delay (m));
    for (int m = 0; m < current->microphones(); ++m)
        delayLines[static_cast<std::size_t> (m)].setDelay ((current->delay (m) - nearest) / current->interval());
}

template <typename Scalar>
void BasicDrum<Scalar>::reset() noexcept
{
    for (auto* array : { &position, &step, &trial, &push })
        std::fill (array->begin(), array->end(), Scalar (0));
    resetWires();
    resetTension();
    sticks.fill ({});
    for (auto& line : delayLines)
        line.reset();
    upperBand.reset();
    pressureSmoother.fill ({});
    delaySmoother.fill ({});
    smoothsStep = false;
    waitingCount = 0;
    untilTidied = tidyEvery;
    fanTouch = {};
    fansLanded = tidyTurn = 0;
    flows = {};
    silent = true;
}

template <typename Scalar>
void BasicDrum<Scalar>::resetWires() noexcept
{
    for (auto* array : { &force, &forceBefore })
        std::copy_n (view.restForce, current->contacts(), array->begin());
    for (auto* array : { &compression, &compressionBefore })
        std::copy_n (view.restCompression, current->contacts(), array->begin());
}

template <typename Scalar>
bool BasicDrum<Scalar>::strike (const Blow& asked, int sampleOffset) noexcept
{
    if (waitingCount == static_cast<int> (waiting.size()))
        return false;
    const Blow blow = broughtIntoRange (asked);
    const int delay = std::max (0, sampleOffset) + static_cast<int> (std::lround (blow.delay / current->interval()));
    // Sorted by time; blows at the same time keep their order.
    int at = waitingCount++;
    for (; at > 0 && waiting[static_cast<std::size_t> (at - 1)].samples > delay; --at)
        waiting[static_cast<std::size_t> (at)] = waiting[static_cast<std::size_t> (at - 1)];
    waiting[static_cast<std::size_t> (at)] = { blow, delay };
    return true;
}

template <typename Scalar>
bool BasicDrum<Scalar>::strike (const Stroke& stroke, int sampleOffset) noexcept
{
    const auto blows = blowsOf (stroke, current->setup().stick, current->setup().modes.radius);
    // A stroke is queued as a whole or not at all.
    if (waitingCount + blows.count > static_cast<int> (waiting.size()))
        return false;
    for (int i = 0; i < blows.count; ++i)
        strike (blows.blow[static_cast<std::size_t> (i)], sampleOffset);
    return true;
}

template <typename Scalar>
void BasicDrum<Scalar>::process (Scalar* const* outputs, int frames) noexcept
{
    [[maybe_unused]] const ScopedFlushToZero flush; // nothing where there is no such setting
    for (int m = 0; m < current->microphones(); ++m)
        std::fill_n (outputs[m], frames, Scalar (0));

    int done = 0;
    while (done < frames)
    {
        while (waitingCount > 0 && waiting[0].samples <= 0)
        {
            land (waiting[0].blow);
            switchTension();
            std::move (waiting.begin() + 1, waiting.begin() + waitingCount, waiting.begin());
            --waitingCount;
        }
        int span = std::min (frames - done, untilTidied);
        if (waitingCount > 0)
            span = std::min (span, waiting[0].samples);

        std::array<Scalar*, maxMicrophones> at{};
        for (int m = 0; m < current->microphones(); ++m)
            at[static_cast<std::size_t> (m)] = outputs[m] + done;
        runSpan (at.data(), span);
        for (int i = 0; i < waitingCount; ++i)
            waiting[static_cast<std::size_t> (i)].samples -= span;
        done += span;
    }
}

template <typename Scalar>
void BasicDrum<Scalar>::runSpan (Scalar* const* outputs, int frames) noexcept
{
    if (! silent)
    {
        if (untilTidied == tidyEvery)
            switchTension();
        upperBand.open (view, frames);
        run (view, outputs, frames);
        upperBand.add (outputs, frames);
        if (frames == untilTidied)
        {
            moveBrushes();
            retireSticks();
            sleepIfSilent();
        }
    }
    untilTidied = frames == untilTidied ? tidyEvery : untilTidied - frames;

    const auto scale = static_cast<Scalar> (1.0 / fullScalePressure);
    for (int m = 0; m < current->microphones(); ++m)
    {
        const auto index = static_cast<std::size_t> (m);
        for (int frame = 0; frame < frames; ++frame)
        {
            // A new model may change the pressure at once, and the microphone's distance, which takes effect after the delay.
            const bool steps = smoothsStep && frame == 0;
            const Scalar pushed = pressureSmoother[index].next (scale * outputs[m][frame], steps, stepDecay);
            outputs[m][frame] = delaySmoother[index].next (delayLines[index].next (pushed), steps, stepDecay);
        }
    }
    smoothsStep = false;
}

template <typename Scalar>
void BasicDrum<Scalar>::sleepIfSilent() noexcept
{
    for (const auto& stick : sticks)
        if (stick.active)
            return;
    // Cheap test first: usually a few modes alone have more.
    if (current->hasModalEnergy (position.data(), step.data(), silence) || energy() > silence)
        return;
    for (auto* array : { &position, &step })
        std::fill (array->begin(), array->end(), Scalar (0));
    resetWires();
    resetTension();
    upperBand.reset();
    silent = true;
}

template class BasicDrum<float>;
template class BasicDrum<double>;

} // namespace engine
