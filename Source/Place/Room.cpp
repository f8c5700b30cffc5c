#include "Room.h"

#include "Engine/Bytes.h"
#include "Engine/DelayLine.h"
#include "Engine/ScopedFlushToZero.h"
#include "Modal/Units.h"

#include <algorithm>
#include <cmath>
#include <random>

namespace place
{
namespace
{

constexpr std::size_t pathCount = 64;
constexpr int feedsPerLine = 4;
constexpr std::size_t octaveOf1kHz = 3;              ///< the octave of 1 kHz, for which each path has its exact level
constexpr double halfAngle = modal::units::pi / 3.0; ///< of the pair
constexpr double diffuseEnergy = 1.0 / 3.0, diffuseCorrelation = 0.625; ///< of the pair: (1 + cos 120°/3)/(1 + 1/3)

LateReverberation::Lines signsOf (unsigned bits)
{
    LateReverberation::Lines signs;
    for (int i = 0; i < LateReverberation::lines; ++i)
        signs[i] = (bits >> i & 1u) != 0 ? 1.0 : -1.0;
    return signs;
}

/** Sums of the lines that have nothing in common. */
const auto firstSum = signsOf (0x1a6f), secondSum = signsOf (0x1a6f ^ 0x3c5a);
const double commonShare = std::sqrt (0.5 * diffuseEnergy * (1.0 + diffuseCorrelation)),
             apartShare = std::sqrt (0.5 * diffuseEnergy * (1.0 - diffuseCorrelation));

double gainOf (double decibels)
{
    return std::pow (10.0, decibels / 20.0);
}

/** Level along a path in one octave, dB, without spreading. */
double lossOf (const Image& image, const Decay& decay, std::size_t octave)
{
    return -image.reflections * decay.sideLoss[octave] - decay.airLoss[octave] * image.distance;
}

/** Gain of a cardioid in the horizontal plane that is turned by `angle` (positive: left) from `towards`. */
double cardioid (const Point& from, const Point& towards, double angle)
{
    const double flat = std::max (std::hypot (towards[0], towards[1]), 1.0e-9);
    const double c = std::cos (angle), s = std::sin (angle), x = towards[0] / flat, y = towards[1] / flat;
    // Left of someone who looks against the room's length is where the sides' distance is smaller.
    return 0.5 * (1.0 + from[0] * (c * x - s * y) + from[1] * (s * x + c * y));
}

} // namespace

Room::Room (const Place& place, double pickedUpAt, double sampleRate, bool isMono) : rate (sampleRate), mono (isMono)
{
    const Box box (place);
    const Decay decay (place);
    soundSpeed = box.soundSpeed;

    auto paths = images (place, pathCount);
    lead = std::min (pickedUpAt, paths.front().distance) / soundSpeed;
    const double end = paths.back().distance / soundSpeed - lead;

    if (place.kind == Place::Kind::room)
    {
        paths.pop_back();
        const double flight = 4.0 * place.volume / (box.surface * soundSpeed);
        late.emplace (fittedTimes (decay.time, rate), std::min (flight, 0.5 * end), rate);
        addLate (place, decay, pickedUpAt, end);
    }
    addPaths (paths, decay, pickedUpAt);

    size = static_cast<std::size_t> (end * rate) + 4 + block;
    makeHistory();
}

Room::Room (std::span<const std::byte> bytes)
{
    engine::ByteReader reader (bytes, "room");
    pass (*this, reader);
    reader.requireEnd();
    makeHistory();
}

std::vector<std::byte> Room::write() const
{
    engine::ByteWriter writer;
    pass (*this, writer);
    return std::move (writer.written);
}

template <class Self, class Stream>
void Room::pass (Self& self, Stream& stream)
{
    engine::pass (stream, self.rate, self.mono, self.taps, self.feeds, self.size);
    OctaveFilter<channels>::pass (self.losses, stream);

    bool hasLate = self.late.has_value();
    engine::pass (stream, hasLate);
    if constexpr (Stream::reads)
    {
        if (hasLate)
            self.late.emplace (stream);
    }
    else if (hasLate)
        LateReverberation::pass (*self.late, stream);
}

void Room::makeHistory()
{
    for (auto& samples : history)
        samples.assign (2 * size, 0.0f);
}

void Room::addPaths (const std::vector<Image>& paths, const Decay& decay, double pickedUpAt)
{
    const auto groupOf = [] (const Image& image) { return std::min (image.reflections, groups - 1); };
    const auto& drum = paths.front().from;

    for (const auto& image : paths)
    {
        const double delay = std::max ((image.distance / soundSpeed - lead) * rate, 1.0);
        const double gain = pickedUpAt / image.distance * gainOf (lossOf (image, decay, octaveOf1kHz));
        Tap tap{ groupOf (image),
                 static_cast<std::size_t> (delay),
                 {},
                 static_cast<float> (gain),
                 static_cast<float> (gain * cardioid (image.from, drum, halfAngle)),
                 static_cast<float> (gain * cardioid (image.from, drum, -halfAngle)) };
        const auto weights = engine::cubicWeights (delay - std::floor (delay));
        std::transform (weights.begin(), weights.end(), tap.weights.begin(), [] (double w) { return static_cast<float> (w); });
        taps.push_back (tap);
    }

    for (int group = 0; group < groups; ++group)
    {
        Decay::Bands decibels{};
        double count = 0.0;
        for (const auto& image : paths)
            if (groupOf (image) == group)
            {
                ++count;
                for (std::size_t i = 0; i < decibels.size(); ++i)
                    decibels[i] += lossOf (image, decay, i) - lossOf (image, decay, octaveOf1kHz);
            }
        for (auto& level : decibels)
            level /= std::max (count, 1.0);
        // The sound that was picked up has the air's losses so far.
        for (std::size_t i = 0; i < decibels.size(); ++i)
            decibels[i] += (decay.airLoss[i] - decay.airLoss[octaveOf1kHz]) * pickedUpAt;
        losses.set (group, shelvesFor (decibels, rate));
    }
}

/** Fills the network so that what comes out is in equilibrium from the first sample on: each line gets energy evenly over its
 * length. */
void Room::addLate (const Place& place, const Decay& decay, double pickedUpAt, double begin)
{
    // Each place of the listener has its own diffuse sound.
    std::minstd_rand random (
        1u + static_cast<unsigned> (std::lround (1000.0 * (place.listenerDistance + 17.0 * place.listenerAside + 300.0))));
    const double perSecond =
        4.0 * modal::units::pi * soundSpeed * pickedUpAt * pickedUpAt / place.volume; // energy at the drum's stroke
    const double neper = std::log (10.0) / 10.0, flown = begin + lead;
    Decay::Bands stored{}; // energy in the lines, as if all had been there at `begin`
    double wanted = 0.0;

    for (int line = 0; line < LateReverberation::lines; ++line)
    {
        const auto samples = late->delays()[static_cast<std::size_t> (line)];
        const double length = static_cast<double> (samples) / rate, energy = perSecond * length / LateReverberation::lines;
        wanted += energy;
        for (int k = 0; k < feedsPerLine; ++k)
        {
            const double within = static_cast<double> (random()) / std::minstd_rand::max();
            const double before = std::min (length * (k + within) / feedsPerLine, begin);
            const double share = energy / feedsPerLine * std::exp (60.0 * neper * before / decay.time[octaveOf1kHz]);
            const double sign = random() % 2 == 0 ? 1.0 : -1.0;
            feeds.push_back (
                { line, static_cast<std::size_t> ((begin - before) * rate), static_cast<float> (sign * std::sqrt (share)) });
            for (std::size_t i = 0; i < stored.size(); ++i)
                stored[i] += share * std::exp (-60.0 * neper * before / decay.time[i]);
        }
    }

    Decay::Bands decibels;
    for (std::size_t i = 0; i < decibels.size(); ++i)
        decibels[i] = 10.0 * std::log10 (wanted / stored[i]) - 60.0 * flown / decay.time[i];
    losses.set (lateGroup, shelvesFor (decibels, rate));
}

void Room::process (const float* sound, float* left, float* right, int frames) noexcept
{
    [[maybe_unused]] const engine::ScopedFlushToZero noDenormals;
    float* second = mono ? nullptr : right;
    for (int done = 0; done < frames; done += block)
        processBlock (sound + done, left + done, second == nullptr ? nullptr : second + done, std::min (block, frames - done));
    if (mono && right != nullptr)
        std::copy_n (left, frames, right);
}

void Room::reset() noexcept
{
    for (auto& samples : history)
        std::fill (samples.begin(), samples.end(), 0.0f);
    losses.reset();
    if (late)
        late->reset();
}

void Room::processBlock (const float* sound, float* left, float* right, int frames) noexcept
{
    std::fill_n (left, frames, 0.0f);
    if (right != nullptr)
        std::fill_n (right, frames, 0.0f);

    remember (sound, frames);
    addEarly (left, right, frames);
    if (late)
        addLate (left, right, frames);
    blockStart = (blockStart + static_cast<std::size_t> (frames)) % size;
}

void Room::remember (const float* sound, int frames) noexcept
{
    for (int i = 0; i < frames; ++i)
    {
        const auto filtered = losses.next (OctaveFilter<channels>::Lanes::Constant (static_cast<double> (sound[i])));
        const auto at = (blockStart + static_cast<std::size_t> (i)) % size;
        for (std::size_t group = 0; group < history.size(); ++group)
            history[group][at] = history[group][at + size] = static_cast<float> (filtered[static_cast<Eigen::Index> (group)]);
    }
}

void Room::addEarly (float* left, float* right, int frames) const noexcept
{
    std::array<float, block> heard;
    for (const auto& tap : taps)
    {
        const auto& w = tap.weights;
        const float* earliest = past (tap.group, tap.delay + 2);
        for (int i = 0; i < frames; ++i)
            heard[static_cast<std::size_t> (i)] =
                w[0] * earliest[i + 3] + w[1] * earliest[i + 2] + w[2] * earliest[i + 1] + w[3] * earliest[i];

        const float first = right == nullptr ? tap.mono : tap.left;
        for (int i = 0; i < frames; ++i)
            left[i] += first * heard[static_cast<std::size_t> (i)];
        if (right != nullptr)
            for (int i = 0; i < frames; ++i)
                right[i] += tap.right * heard[static_cast<std::size_t> (i)];
    }
}

void Room::addLate (float* left, float* right, int frames) noexcept
{
    std::array<std::array<float, block>, LateReverberation::lines> input{};
    for (const auto& feed : feeds)
    {
        const float* from = past (lateGroup, feed.delay);
        auto& to = input[static_cast<std::size_t> (feed.line)];
        for (int i = 0; i < frames; ++i)
            to[static_cast<std::size_t> (i)] += feed.gain * from[i];
    }

    for (int i = 0; i < frames; ++i)
    {
        LateReverberation::Lines in;
        for (int line = 0; line < LateReverberation::lines; ++line)
            in[line] = static_cast<double> (input[static_cast<std::size_t> (line)][static_cast<std::size_t> (i)]);
        const auto out = late->next (in);
        const double first = (firstSum * out).sum(), second = (secondSum * out).sum();
        if (right == nullptr)
            left[i] += static_cast<float> (first);
        else
        {
            left[i] += static_cast<float> (commonShare * first + apartShare * second);
            right[i] += static_cast<float> (commonShare * first - apartShare * second);
        }
    }
}

} // namespace place
