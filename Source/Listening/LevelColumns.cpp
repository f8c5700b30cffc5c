#include "LevelColumns.h"

#include "Modal/Units.h"

#include <algorithm>
#include <bit>
#include <cmath>

namespace listening
{

double LevelColumn::frequencyOf (double row) noexcept
{
    return lowest * std::pow (highest / lowest, row / (rows - 1));
}

double LevelColumn::rowOf (double hertz) noexcept
{
    return (rows - 1) * std::log (hertz / lowest) / std::log (highest / lowest);
}

LevelColumns::LevelColumns (double sampleRate) : hop (static_cast<std::size_t> (std::lround (step * sampleRate)))
{
    const auto length = static_cast<std::size_t> (window * sampleRate);
    const auto size = std::bit_ceil (2 * length); // zeros after the frame bring bins close together
    double sum = 0.0;

    for (std::size_t i = 0; i < length; ++i)
    {
        shape.push_back (static_cast<float> (
            0.5 - 0.5 * std::cos (modal::units::twoPi * (static_cast<double> (i) + 0.5) / static_cast<double> (length))));
        sum += static_cast<double> (shape.back());
    }

    recent.assign (length, 0.0f);
    frame.assign (size, 0.0f);
    scale = static_cast<float> (4.0 / (sum * sum));

    for (int row = 0; row < LevelColumn::rows; ++row)
        binOfRow.push_back (LevelColumn::frequencyOf (row) / sampleRate * static_cast<double> (size));
}

void LevelColumns::add (const float* samples, std::size_t count, const Take& take)
{
    for (std::size_t i = 0; i < count; ++i)
    {
        recent[at] = std::isfinite (samples[i]) ? samples[i] : 0.0f;
        at = (at + 1) % recent.size();

        if (++sinceColumn == hop)
        {
            sinceColumn = 0;
            take (column());
        }
    }
}

LevelColumn LevelColumns::column()
{
    for (std::size_t i = 0; i < recent.size(); ++i)
        frame[i] = shape[i] * recent[(at + i) % recent.size()];

    transform.fwd (spectrum, frame);
    LevelColumn column;
    const auto powerAt = [this] (std::size_t bin) { return std::norm (spectrum[std::min (bin, spectrum.size() / 2)]); };

    for (std::size_t row = 0; row < binOfRow.size(); ++row)
    {
        // Between bins where rows lie closer than they; the loudest bin of the row where they lie closer than rows.
        const double from = row == 0 ? binOfRow[0] : 0.5 * (binOfRow[row - 1] + binOfRow[row]);
        const double to = row + 1 == binOfRow.size() ? binOfRow[row] : 0.5 * (binOfRow[row] + binOfRow[row + 1]);
        const auto below = static_cast<std::size_t> (binOfRow[row]);
        const auto part = static_cast<float> (binOfRow[row] - static_cast<double> (below));
        float power = (1.0f - part) * powerAt (below) + part * powerAt (below + 1);

        for (auto bin = static_cast<std::size_t> (std::ceil (from)); static_cast<double> (bin) < to; ++bin)
            power = std::max (power, powerAt (bin));

        const double level = 10.0 * std::log10 (std::max (static_cast<double> (power * scale), 1.0e-30));
        column.levels[row] = static_cast<std::uint8_t> (
            std::lround (255.0 * std::clamp (1.0 - level / LevelColumn::floor, 0.0, 1.0)));
    }

    return column;
}

} // namespace listening
