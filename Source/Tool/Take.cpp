#include "Take.h"

#include "Score/StrokeEnergy.h"

#include <algorithm>

namespace tool
{

namespace
{
constexpr int blockSize = 512;
constexpr std::size_t microphones = 3;

using Block = std::array<float, blockSize>;

/** From the microphones to the channels that are wanted, and to Pa. */
class Mixer
{
public:
    Mixer (Pickup pickup, const StereoParts& mix)
    {
        const auto pa = engine::fullScalePressure;

        for (std::size_t m = 0; m < microphones; ++m)
        {
            const auto& sides = mix[m];

            if (pickup == Pickup::stereo)
            {
                gains[0][m] = static_cast<float> (pa * sides.left);
                gains[1][m] = static_cast<float> (pa * sides.right);
            }
            else if (pickup == Pickup::each)
                gains[m][m] = static_cast<float> (pa);
        }

        if (pickup < Pickup::each)
            gains[0][static_cast<std::size_t> (pickup)] = static_cast<float> (pa);
    }

    void mix (const std::array<Block, microphones>& from, std::array<Block, microphones>& to, int channels,
              std::size_t frames) const
    {
        for (std::size_t c = 0; c < static_cast<std::size_t> (channels); ++c)
            for (std::size_t i = 0; i < frames; ++i)
            {
                to[c][i] = 0.0f;

                for (std::size_t m = 0; m < microphones; ++m)
                    to[c][i] += gains[c][m] * from[m][i];
            }
    }

private:
    std::array<std::array<float, microphones>, microphones> gains{}; ///< of each channel, by microphone
};

/** What the listener hears of a sound, in Pa. */
void hearInRoom (place::Room& room, Block& sound, std::array<Block, microphones>& to, int channels, int frames)
{
    for (auto& sample : sound)
        sample *= static_cast<float> (engine::fullScalePressure);

    room.process (sound.data(), to[0].data(), channels == 2 ? to[1].data() : nullptr, frames);
}
} // namespace

int channelsOf (Pickup pickup) noexcept
{
    return pickup == Pickup::stereo || pickup == Pickup::listener ? 2 : pickup == Pickup::each ? 3 : 1;
}

Take::Take (std::shared_ptr<const engine::DrumModel> playedModel, score::Score score, Pickup wanted, const StereoParts& parts,
            long long length, std::optional<place::Place> where)
    : model (std::move (playedModel)), strokes (std::move (score)), pickup (wanted), mix (parts), place (std::move (where)), frames (length)
{
}

void Take::play (const Use& use)
{
    score::Performance performance (model, strokes);
    const Mixer mixer (pickup, mix);
    std::array<Block, microphones> heard{}, mixed{};
    std::array<float*, microphones> outputs{};
    std::array<const float*, microphones> channelPointers{};

    for (std::size_t m = 0; m < microphones; ++m)
    {
        outputs[m] = heard[m].data();
        channelPointers[m] = mixed[m].data();
    }

    std::unique_ptr<place::Room> room;
    if (place)
        room = std::make_unique<place::Room> (*place, score::distanceOf (model->setup().microphones.back()), model->setup().sampleRate);

    for (auto left = frames; left > 0; left -= blockSize)
    {
        const auto count = static_cast<int> (std::min<long long> (left, blockSize));
        performance.process (outputs.data(), count);
        if (room != nullptr)
            hearInRoom (*room, heard.back(), mixed, channels(), count);
        else
            mixer.mix (heard, mixed, channels(), static_cast<std::size_t> (count));
        use (channelPointers.data(), count);
    }

    lost = performance.lostStrokes();
}

} // namespace tool
