#include "InputReader.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <utility>

namespace plugin
{
namespace
{
constexpr auto lookEvery = std::chrono::milliseconds (8); // for new samples
constexpr std::size_t mostAtOnce = 4096;                  // samples
} // namespace

InputReader::InputReader (std::function<void (Piece)> takePiece) : take (std::move (takePiece)) {}

void InputReader::setSampleRate (double hertz)
{
    const std::scoped_lock lock (mutex);
    sampleRate = hertz;
    isNewRate = true;
}

void InputReader::setWanted (bool isWanted)
{
    {
        const std::scoped_lock lock (mutex);

        if (isWanted && ! thread.joinable())
            thread = std::jthread ([this] (const std::stop_token& stop) { run (stop); });

        isOn.store (isWanted, std::memory_order_release);
    }
    news.notify_all();
}

void InputReader::run (const std::stop_token& stop)
{
    std::unique_lock lock (mutex);

    while (! stop.stop_requested())
    {
        // What was written before the input was last not wanted is read too: it is the sound up to then.
        if (ring.waiting() == 0 && ! isOn.load())
            news.wait (lock, stop, [this] { return isOn.load(); });
        else if (ring.waiting() == 0)
            news.wait_for (lock, stop, lookEvery, [] { return false; });

        if (std::exchange (isNewRate, false))
        {
            rate = sampleRate;
            columns = std::make_unique<listening::LevelColumns> (rate);
            position = 0;
            columnCount = 0;
            kept.clear();
        }

        isBusy = true;
        lock.unlock();
        read (std::min (ring.waiting(), mostAtOnce));
        lock.lock();
        isBusy = false;
    }
}

void InputReader::read (std::size_t count)
{
    const bool isAfterGap = ring.lostSome();

    if (count == 0 && ! isAfterGap)
        return;

    if (isAfterGap)
    {
        ring.clear();
        count = 0;
    }

    Piece piece{ std::vector<float> (count), 0.0, isAfterGap };
    ring.take (piece.samples.data(), count);
    position += static_cast<std::int64_t> (count);
    piece.end = static_cast<double> (position) / rate;

    float loudest = peak.load (std::memory_order_relaxed);

    for (const float sample : piece.samples)
        loudest = std::max (loudest, std::abs (sample));

    peak.store (loudest, std::memory_order_relaxed);
    columns->add (piece.samples.data(), count,
                  [this] (const listening::LevelColumn& column)
                  {
                      const std::scoped_lock lock (mutex);
                      kept.push_back (column);
                      ++columnCount;

                      if (kept.size() > keptColumns)
                          kept.pop_front();
                  });
    take (std::move (piece));
}

InputReader::Columns InputReader::columnsFrom (std::int64_t number) const
{
    const std::scoped_lock lock (mutex);
    const auto first = columnCount - static_cast<std::int64_t> (kept.size());
    const auto from = number > columnCount ? first : std::max (first, number);
    return { from, { kept.begin() + static_cast<std::ptrdiff_t> (from - first), kept.end() } };
}

bool InputReader::isCaughtUp() const
{
    const std::scoped_lock lock (mutex);
    return ! isBusy && ring.waiting() == 0;
}

} // namespace plugin
