#pragma once

#include <unsupported/Eigen/FFT>

#include <array>
#include <complex>
#include <cstdint>
#include <functional>
#include <vector>

namespace listening
{

/** Levels at one moment over a logarithmic axis of frequency: a column of a spectrogram. */
struct LevelColumn
{
    static constexpr int rows = 252;                         ///< from low to high, 25 cents each
    static constexpr double lowest = 60.0, highest = 2300.0; ///< Hz, of the first and the last row
    static constexpr double floor = -100.0;                  ///< dB below a sine of full scale: what is fainter is as faint

    std::array<std::uint8_t, rows> levels{}; ///< 0: the floor, 255: a sine of full scale

    static double frequencyOf (double row) noexcept; ///< Hz
    static double rowOf (double hertz) noexcept;     ///< with fractions, also outside of the axis
};

/** Makes columns of sound as it comes in, one every hundredth of a second, with a Hann window of 80 ms, which resolves 25 Hz. A sine
    between two bins is as loud as one on a bin, to 0.4 dB. */
class LevelColumns
{
public:
    static constexpr double step = 0.01;   ///< s from column to column
    static constexpr double window = 0.08; ///< s

    /** @param sampleRate  Hz, 8000 or more */
    explicit LevelColumns (double sampleRate);

    using Take = std::function<void (const LevelColumn&)>;

    /** The next samples in pieces of any size. @param take  called with each column; column n ends at n + 1 steps */
    void add (const float* samples, std::size_t count, const Take& take);

private:
    LevelColumn column();

    std::size_t hop;
    std::vector<float> shape, recent; ///< window; last samples, a ring
    std::size_t at = 0, sinceColumn = 0;
    std::vector<double> binOfRow;     ///< with fractions
    float scale;                      ///< power of a bin to that of a full-scale sine
    Eigen::FFT<float> transform;
    std::vector<float> frame;
    std::vector<std::complex<float>> spectrum;
};

} // namespace listening
