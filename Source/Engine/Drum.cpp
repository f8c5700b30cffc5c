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

/** A striker higher than this above the head that nothing pulls back has left, m. */
constexpr double strikerReach = 0.02;

/** Samples between checks for strikers that have left. Counted across calls, so that the sound does not depend on the block size.
 */
constexpr int tidyEvery = 64;

/** No striker stays longer than this, s. */
constexpr double longestStay = 3.0;

/** Tension rises below this share are skipped while playing: at most a quarter of a cent, which is inaudible. */
constexpr double smallestTensionRise = 3.0e-4;

/** While playing, contact forces converge to this share of the largest force beyond rest. Against a hundredth of this a stroke's
   level changes by less than 0.01 dB and the energy balance by 2e-5. */
constexpr double playingTolerance = 2.0e-2;

/** Kinetic energy, and energy in the compression and in the dent of the head, J. */
double strikerEnergy (const StrikerState& striker) noexcept
{
    return 0.5 * striker.step * striker.step / striker.drive +
           0.25 * striker.dentStiffness() * (striker.dent * striker.dent + striker.dentBefore * striker.dentBefore) +
           0.5 * (storedEnergy (striker.stiffness, striker.exponent, striker.compression) +
                  storedEnergy (striker.stiffness, striker.exponent, striker.compressionBefore));
}

} // namespace

template <typename Scalar>
BasicDrum<Scalar>::BasicDrum (std::shared_ptr<const Model> model)
    : current (std::move (model)), run (kernelFor<Scalar>().run), position (maxModes), step (maxModes), trial (maxModes),
      push (maxModes), takenPosition (maxModes), takenStep (maxModes), force (maxContacts), forceBefore (maxContacts),
      compression (maxContacts), compressionBefore (maxContacts), scratch (8 * maxContacts),
      field (static_cast<std::size_t> (4 * maxModes)), upperBand (current->setup().sampleRate)
{
    for (auto& shape : strikerShape)
        shape.resize (maxModes);
    for (auto& cross : strikerToWire)
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
    view.strikers = strikers.data();
    view.flows = &flows;
    for (std::size_t j = 0; j < maxStrikers; ++j)
    {
        view.strikerShape[j] = strikerShape[j].data();
        view.strikerToWire[j] = strikerToWire[j].data();
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
    strikers.fill ({});
    for (auto& line : delayLines)
        line.reset();
    upperBand.reset();
    pressureSmoother.fill ({});
    delaySmoother.fill ({});
    smoothsStep = false;
    waitingCount = 0;
    untilTidied = tidyEvery;
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
    const ScopedFlushToZero flush;
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
            retireStrikers();
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
int BasicDrum<Scalar>::freeSlot() noexcept
{
    int oldest = 0;
    for (int j = 0; j < maxStrikers; ++j)
    {
        const auto& striker = strikers[static_cast<std::size_t> (j)];
        if (! striker.active)
            return j;
        if (striker.age > strikers[static_cast<std::size_t> (oldest)].age)
            oldest = j;
    }
    return oldest;
}

template <typename Scalar>
void BasicDrum<Scalar>::land (const Blow& blow) noexcept
{
    silent = false;
    const int slot = freeSlot();
    const auto index = static_cast<std::size_t> (slot);
    const double T = current->interval();
    auto& striker = strikers[index];
    removeStriker (striker);

    landed[index] = blow;
    dentUnder (slot);
    upperBand.place (slot, blow, *current);
    shapeStriker (slot);
    const double surface = surfaceUnder (slot);
    double surfaceBefore = surface;
    for (std::size_t k = 0; k < static_cast<std::size_t> (view.modes); ++k)
        surfaceBefore -= static_cast<double> (strikerShape[index][k]) * static_cast<double> (step[k]);
    // The tip arrives where the surface is now.
    striker.active = true;
    striker.drive = T * T / blow.mass;
    striker.stiffness = blow.stiffness;
    striker.exponent = blow.exponent;
    striker.lossRate = 0.5 * blow.loss / T;
    striker.grip = blow.grip * T / (2.0 * blow.mass);
    striker.hand = blow.hand;
    striker.lift = blow.lift;
    striker.liftAfter = static_cast<int> (blow.holdTime / T);
    striker.handWithin = static_cast<int> (blow.handTime / T);
    striker.step = -blow.speed * T;
    striker.height = surface;
    striker.compressionBefore = std::min (0.0, surfaceBefore - (surface - striker.step));
    striker.height = surfaceBefore - striker.compressionBefore + striker.step;
    striker.compression = surface - striker.height;
    if (view.countsEnergy)
        flows.work += strikerEnergy (striker);
    measureStriker (slot);
}

template <typename Scalar>
void BasicDrum<Scalar>::shapeStriker (int slot) noexcept
{
    const auto& blow = landed[static_cast<std::size_t> (slot)];
    auto* shape = strikerShape[static_cast<std::size_t> (slot)].data();
    if (blow.target == Blow::Target::head)
        current->headShape (blow.radius, blow.angle, shape);
    else
        current->hoopShape (blow.angle, shape);
}

/** Local compliance of the head under a striker that the modes do not resolve. */
template <typename Scalar>
void BasicDrum<Scalar>::dentUnder (int slot) noexcept
{
    auto& striker = strikers[static_cast<std::size_t> (slot)];
    const auto film = current->filmUnderTip();
    if (landed[static_cast<std::size_t> (slot)].target != Blow::Target::head || film.stiffness <= 0.0)
    {
        striker.dentRelease = striker.dentYield = striker.dent = striker.dentBefore = 0.0;
        return;
    }
    striker.dentYield = 1.0 / (0.5 * film.stiffness + 0.5 * film.resistance / current->interval());
    striker.dentRelease = film.stiffness * striker.dentYield;
}

/** Height of the head or hoop where a striker is, m. */
template <typename Scalar>
double BasicDrum<Scalar>::surfaceUnder (int slot) const noexcept
{
    double sum = 0.0;
    for (std::size_t k = 0; k < static_cast<std::size_t> (view.modes); ++k)
        sum += static_cast<double> (strikerShape[static_cast<std::size_t> (slot)][k]) * static_cast<double> (position[k]);
    return sum;
}

/** How far a striker's force moves its own contact point, other strikers and the wires in one step. */
template <typename Scalar>
void BasicDrum<Scalar>::measureStriker (int slot) noexcept
{
    const auto index = static_cast<std::size_t> (slot);
    auto& striker = strikers[index];
    using Values = Eigen::Map<const Eigen::Array<Scalar, Eigen::Dynamic, 1>>;
    const Values shape (strikerShape[index].data(), view.modes);
    // Displacement of each mode in one step for a force of 1 N.
    Eigen::Map<Eigen::Array<Scalar, Eigen::Dynamic, 1>> moved (scratch.data(), view.modes);
    moved = Values (view.drive, view.modes) * shape;
    for (int other = 0; other < maxStrikers; ++other)
    {
        const auto otherIndex = static_cast<std::size_t> (other);
        if (! strikers[otherIndex].active)
            continue;
        const double own = other == slot ? striker.drive / (1.0 + striker.grip) + striker.dentYield : 0.0;
        const Values otherShape (strikerShape[otherIndex].data(), view.modes);
        const double mobility = own + (moved * otherShape).template cast<double>().sum();
        if (other == slot)
            striker.mobility = mobility;
        else
            striker.crossMobility[other] = strikers[otherIndex].crossMobility[slot] = mobility;
    }

    current->contactsMovedBy (moved.data(), strikerToWire[index].data());
}

/** Removes a striker, and its energy from the balance. */
template <typename Scalar>
void BasicDrum<Scalar>::removeStriker (StrikerState& striker) noexcept
{
    if (striker.active && view.countsEnergy)
        flows.work -= strikerEnergy (striker);
    striker = {};
}

template <typename Scalar>
void BasicDrum<Scalar>::retireStrikers() noexcept
{
    for (std::size_t j = 0; j < maxStrikers; ++j)
    {
        auto& striker = strikers[j];
        if (! striker.active)
            continue;
        const bool leaves =
            striker.step > 0.0 && striker.compression < 0.0 && (striker.age >= striker.liftAfter || striker.hand <= 0.0);
        const bool isAway = leaves && (-striker.compression > strikerReach ||
                                       (striker.contactSamples > 0 && striker.hand <= 0.0 && striker.compression < -1.0e-3));
        if (! isAway && striker.age < longestStay / current->interval())
            continue;
        report.contactTime = striker.contactSamples * current->interval();
        report.peakForce = striker.peakForce;
        report.reboundShare = striker.step / current->interval() / landed[j].speed;
        removeStriker (striker);
    }
}

template <typename Scalar>
void BasicDrum<Scalar>::sleepIfSilent() noexcept
{
    for (const auto& striker : strikers)
        if (striker.active)
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

template <typename Scalar>
double BasicDrum<Scalar>::energy() const noexcept
{
    double sum = ringingEnergy() + view.tension.store;
    for (const auto& striker : strikers)
        if (striker.active)
            sum += strikerEnergy (striker);
    return sum;
}

template class BasicDrum<float>;
template class BasicDrum<double>;

} // namespace engine
