#include "UpperBandSound.h"

#include "Bank.h"
#include "DrumModel.h"

#include <algorithm>
#include <cmath>

namespace engine
{
namespace
{

/** Samples processed together. */
constexpr int chunk = 64;

/** Rows of the Hadamard matrix with these signs have at most half of any other row in common. */
constexpr std::array<float, 8> otherSigns{ 1.0f, 1.0f, 1.0f, -1.0f, 1.0f, 1.0f, -1.0f, 1.0f };

/** s: across the largest head at the lowest speed of sound. */
constexpr double longestTap = 1.5 / 300.0;

} // namespace

template <typename Scalar>
UpperBandSound<Scalar>::UpperBandSound (double sampleRate)
    : rate (sampleRate), past (static_cast<int> (longestTap * sampleRate) + 1),
      written (past), networks{ FeedbackDelayNetwork<Scalar> (sampleRate), FeedbackDelayNetwork<Scalar> (sampleRate) }
{
    room = 4 * past;
    forces.resize (static_cast<std::size_t> (points * room));
}

template <typename Scalar>
void UpperBandSound<Scalar>::reset() noexcept
{
    std::fill (forces.begin(), forces.end(), Scalar (0));
    for (auto& network : networks)
        network.reset();
    for (auto& corner : corners)
        corner.reset();
    patch.reset();
    inputState = {};
    outputState = {};
    written = past;
}

template <typename Scalar>
auto UpperBandSound<Scalar>::tapFor (const BasicDrumModel<Scalar>& model, int head, double x, double y,
                                     int microphone) const noexcept -> Tap
{
    const auto& setup = model.setup();
    const auto path =
        model.upperBand().directPath (head, x, y, setup.modes.air, setup.microphones[static_cast<std::size_t> (microphone)]);
    const auto samples = std::lround ((path.delay - model.delay (microphone)) * rate);
    return { static_cast<Scalar> (path.gain), std::clamp (static_cast<int> (samples), 0, past) };
}

template <typename Scalar>
void UpperBandSound<Scalar>::connect (const BasicDrumModel<Scalar>& model) noexcept
{
    const auto& band = model.upperBand();
    const auto wires = model.forcePoints();
    if (wirePoints != static_cast<int> (wires.size()))
        std::fill (forces.begin() + maxSticks * room, forces.end(), Scalar (0));
    wirePoints = static_cast<int> (wires.size());
    microphones = model.microphones();
    // Nothing to add if the crossover is close to half the sample rate.
    isHeard = microphones > 0 && band.lowest > 0.0 && band.lowest < highestShareOfRate * rate &&
              (band.heads[0].density > 0.0 || band.heads[1].density > 0.0);
    if (! isHeard)
        return;

    for (std::size_t head = 0; head < 2; ++head)
    {
        const auto& film = band.heads[head];
        const double high = std::min (2.0 * band.lowest, 0.475 * rate);
        networks[head].set (0.5 * film.freePath, { band.lowest, film.decayAt (band.lowest) }, { high, film.decayAt (high) },
                            rate);
        for (std::size_t m = 0; m < static_cast<std::size_t> (microphones); ++m)
        {
            corners[head].set (m, std::clamp (film.corner[m], 1.0, highestShareOfRate * rate), rate);
            networkGain[head][m] = static_cast<Scalar> (std::sqrt (film.tailPower[m] / networks[head].loudness()));
        }
    }
    patch.set (std::min (band.tipCorner, highestShareOfRate * rate), rate);
    inputHighPass = HighPassCoefficients<Scalar>::twoPoles (band.lowest, butterworthQualities[0], rate);
    for (std::size_t i = 0; i < outputHighPass.size(); ++i)
        outputHighPass[i] = HighPassCoefficients<Scalar>::twoPoles (band.lowest, butterworthQualities[i + 1], rate);
    const auto wireShare = static_cast<Scalar> (band.wireShare);
    for (int m = 0; m < microphones; ++m)
        for (int p = 0; p < wirePoints; ++p)
        {
            const auto& point = wires[static_cast<std::size_t> (p)];
            auto& tap = taps[static_cast<std::size_t> (m)][static_cast<std::size_t> (maxSticks + p)];
            tap = tapFor (model, 1, point.x, point.y, m);
            tap.gain *= wireShare;
        }
    for (int p = 0; p < wirePoints; ++p)
    {
        const auto& point = wires[static_cast<std::size_t> (p)];
        networkInput[static_cast<std::size_t> (maxSticks + p)] = wireShare * inputFor (model, 1, std::hypot (point.x, point.y));
    }
}

/** An impulse of 1 enters a network with the energy of 1 where its head answers as it does on the mean. */
template <typename Scalar>
Scalar UpperBandSound<Scalar>::inputFor (const BasicDrumModel<Scalar>& model, std::size_t head, double radius) const noexcept
{
    return FeedbackDelayNetwork<Scalar>::share *
           static_cast<Scalar> (model.upperBand().heads[head].tailGain (radius / model.setup().modes.radius));
}

template <typename Scalar>
void UpperBandSound<Scalar>::place (int stick, const Blow& blow, const BasicDrumModel<Scalar>& model) noexcept
{
    for (int m = 0; m < microphones; ++m)
        taps[static_cast<std::size_t> (m)][static_cast<std::size_t> (stick)] =
            tapFor (model, 0, blow.radius * std::cos (blow.angle), blow.radius * std::sin (blow.angle), m);
    networkInput[static_cast<std::size_t> (stick)] = inputFor (model, 0, blow.radius);
}

template <typename Scalar>
void UpperBandSound<Scalar>::open (KernelView<Scalar>& view, int frames) noexcept
{
    if (written + frames > room)
    {
        for (int p = 0; p < points; ++p)
        {
            const auto row = forces.begin() + p * room;
            std::copy (row + written - past, row + written, row);
        }
        written = past;
    }
    view.forceLog = forces.data() + written;
    view.forceLogStride = room;
}

template <typename Scalar>
void UpperBandSound<Scalar>::add (Scalar* const* outputs, int frames) noexcept
{
    for (int from = 0; isHeard && from < frames; from += chunk)
        addChunk (outputs, from, std::min (chunk, frames - from));
    written += frames;
}

template <typename Scalar>
void UpperBandSound<Scalar>::addChunk (Scalar* const* outputs, int from, int frames) noexcept
{
    using Signs = typename FeedbackDelayNetwork<Scalar>::Signs;
    constexpr auto lines = static_cast<std::size_t> (FeedbackDelayNetwork<Scalar>::lines);
    std::array<std::array<Signs, chunk>, 2> answers;
    for (int frame = 0; frame < frames; ++frame)
    {
        // Each force feeds all lines with its own sign pattern, a row of the Hadamard matrix. Bodies beyond the eighth take the rows
        // of the first ones again. The second half of the wires' forces takes the rows with other signs, so that forces of opposite
        // places do not add up.
        std::array<Signs, 2> rows{};
        Signs others{};
        for (int j = 0; j < maxSticks; ++j)
            rows[0][static_cast<std::size_t> (j) % lines] +=
                networkInput[static_cast<std::size_t> (j)] * forcesOf (j)[from + frame];
        for (int p = 0; p < wirePoints; ++p)
            (static_cast<std::size_t> (p) < lines ? rows[1] : others)[static_cast<std::size_t> (p) % lines] +=
                networkInput[static_cast<std::size_t> (maxSticks + p)] * forcesOf (maxSticks + p)[from + frame];
        auto fromWires = FeedbackDelayNetwork<Scalar>::transformed (rows[1]);
        const auto second = FeedbackDelayNetwork<Scalar>::transformed (others);
        for (std::size_t i = 0; i < lines; ++i)
            fromWires[i] += static_cast<Scalar> (otherSigns[i]) * second[i];
        answers[0][static_cast<std::size_t> (frame)] =
            networks[0].next (FeedbackDelayNetwork<Scalar>::transformed (patch.next (rows[0])));
        answers[1][static_cast<std::size_t> (frame)] = networks[1].next (fromWires);
    }

    std::array<std::array<std::array<Scalar, chunk>, maxMicrophones>, 2> direct{};
    for (int m = 0; m < microphones; ++m)
        for (int p = 0; p < maxSticks + wirePoints; ++p)
        {
            const auto& tap = taps[static_cast<std::size_t> (m)][static_cast<std::size_t> (p)];
            if (tap.gain == Scalar (0))
                continue;
            auto& to = direct[p < maxSticks ? 0 : 1][static_cast<std::size_t> (m)];
            const Scalar* const force = forcesOf (p) + from - tap.delay;
            for (int frame = 0; frame < frames; ++frame)
                to[static_cast<std::size_t> (frame)] += tap.gain * force[frame];
        }

    for (int frame = 0; frame < frames; ++frame)
    {
        const auto at = static_cast<std::size_t> (frame);
        PerMicrophone straight{}, heard{};
        for (std::size_t head = 0; head < 2; ++head)
        {
            // Each microphone sums the lines with another sign pattern; the first one, all plus, is not used.
            const auto echoRows = FeedbackDelayNetwork<Scalar>::transformed (answers[head][at]);
            PerMicrophone arrived{};
            for (std::size_t m = 0; m < maxMicrophones; ++m)
                arrived[m] = direct[head][m][at];
            const auto passed = corners[head].next (arrived);
            for (std::size_t m = 0; m < maxMicrophones; ++m)
            {
                straight[m] += passed[m];
                heard[m] += networkGain[head][m] * echoRows[m + 1];
            }
        }
        // The networks have the input high-pass built in.
        const auto entered = inputState.next (straight, inputHighPass);
        for (std::size_t m = 0; m < heard.size(); ++m)
            heard[m] += entered[m];
        for (std::size_t i = 0; i < outputHighPass.size(); ++i)
            heard = outputState[i].next (heard, outputHighPass[i]);
        for (int m = 0; m < microphones; ++m)
            outputs[m][from + frame] += heard[static_cast<std::size_t> (m)];
    }
}

template class UpperBandSound<float>;
template class UpperBandSound<double>;

} // namespace engine
