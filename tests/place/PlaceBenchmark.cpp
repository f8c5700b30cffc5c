// What the sound of a place costs, against convolution with its impulse response.
//
//     place-benchmark [seconds of sound]
//
// Prints processor time. The baseline is what one would otherwise use: overlap-save convolution in equal parts of 512 samples by Eigen's FFT, which
// also delays the sound by one part.

#include "ImpulseResponse.h"

#include "tests/bench/TableRow.h"

#include <algorithm>
#include <complex>
#include <cstdlib>
#include <ctime>
#include <unsupported/Eigen/FFT>

namespace
{

constexpr double sampleRate = 48000.0;
constexpr int block = 512;

/** One channel, part by part. */
class Convolution
{
public:
    explicit Convolution (const std::vector<float>& response)
    {
        for (std::size_t at = 0; at < response.size(); at += block)
        {
            std::vector<float> part (2 * block, 0.0f);
            std::copy (response.begin() + static_cast<std::ptrdiff_t> (at),
                       response.begin() + static_cast<std::ptrdiff_t> (std::min (at + block, response.size())), part.begin());
            parts.emplace_back (Bins::Zero (2 * block));
            transform.fwd (parts.back().data(), part.data(), 2 * block);
        }
        spectra.assign (parts.size(), Bins::Zero (2 * block));
    }

    void process (const float* sound, float* output)
    {
        std::copy_n (input.begin() + block, block, input.begin());
        std::copy_n (sound, block, input.begin() + block);
        newest = newest == 0 ? spectra.size() - 1 : newest - 1;
        transform.fwd (spectra[newest].data(), input.data(), 2 * block);

        Bins sum = Bins::Zero (2 * block);
        for (std::size_t i = 0; i < parts.size(); ++i)
            sum += parts[i] * spectra[(newest + i) % spectra.size()];
        std::vector<float> result (2 * block);
        transform.inv (result.data(), sum.data(), 2 * block);
        std::copy_n (result.begin() + block, block, output);
    }

private:
    using Bins = Eigen::ArrayXcf;
    Eigen::FFT<float> transform;
    std::vector<Bins> parts, spectra;
    std::vector<float> input = std::vector<float> (2 * block, 0.0f);
    std::size_t newest = 0;
};

/** ns a sample. */
template <class Play>
double cost (double seconds, Play play)
{
    const int blocks = std::max (1, static_cast<int> (seconds * sampleRate / block));
    const std::clock_t start = std::clock();
    for (int i = 0; i < blocks; ++i)
        play();
    return 1.0e9 * static_cast<double> (std::clock() - start) / CLOCKS_PER_SEC / (blocks * block);
}

} // namespace

int main (int argumentCount, char** arguments)
{
    const double seconds = argumentCount > 1 ? std::atof (arguments[1]) : 5.0;
    const place::Place place;
    const double longest = *std::max_element (place.times.begin(), place.times.end());
    const auto response = tests::impulseResponse (place, sampleRate, true, longest);
    place::Room room (place, 1.0, sampleRate);
    Convolution left (response.left), right (response.right);
    std::vector<float> sound (block), toLeft (block), toRight (block);
    for (std::size_t i = 0; i < sound.size(); ++i)
        sound[i] = static_cast<float> (i % 7) - 3.0f;

    const double ours = cost (seconds, [&] { room.process (sound.data(), toLeft.data(), toRight.data(), block); });
    const double theirs = cost (seconds,
                                [&]
                                {
                                    left.process (sound.data(), toLeft.data());
                                    right.process (sound.data(), toRight.data());
                                });
    bench::printRow ("sound of a room of 0.8 s, two channels, 48 kHz", ours, "ns a sample", "convolution in parts of 512 samples", theirs / ours);
    return 0;
}
