#pragma once

#include "InputRing.h"

#include "Listening/LevelColumns.h"

#include <condition_variable>
#include <cstdint>
#include <deque>
#include <functional>
#include <memory>
#include <mutex>
#include <thread>

namespace plugin
{

/** Reads the plugin's audio input while it is wanted. The audio thread copies samples into a ring; a thread of its own, started
    when the input is first wanted, makes columns of a spectrogram of them and passes them on. It is never busy for long, so that no sound is
    lost and the picture runs on while others analyse. */
class InputReader
{
public:
    /** Samples as they came in. */
    struct Piece
    {
        std::vector<float> samples;
        double end = 0.0;        ///< s, of the last sample on the input's clock; column n of the spectrogram ends at n + 1 steps
        bool isAfterGap = false; ///< samples before this piece were lost
    };

    /** @param take  called on the reader's thread with each piece */
    explicit InputReader (std::function<void (Piece)> take);

    /** Audio thread: the input's next samples; `right` may be null. Copies them while the input is wanted, otherwise does nothing. */
    void hear (const float* left, const float* right, int frames) noexcept
    {
        if (isOn.load (std::memory_order_acquire))
            ring.write (left, right, frames);
    }

    // Any thread but the audio thread.

    /** Restarts the clock and the columns. Hz. */
    void setSampleRate (double);
    void setWanted (bool);

    /** Columns in a row, ending with the latest. */
    struct Columns
    {
        std::int64_t first = 0; ///< number of the first column
        std::vector<listening::LevelColumn> columns{};

        std::int64_t end() const noexcept { return first + static_cast<std::int64_t> (columns.size()); }
    };

    static constexpr std::size_t keptColumns = 2000; ///< 20 s

    /** Those from this number on, as far as they are kept; from the first if the clock was restarted since. */
    Columns columnsFrom (std::int64_t number) const;

    /** Peak of the input since the last call, full scale 1. */
    float takePeak() noexcept { return peak.exchange (0.0f, std::memory_order_relaxed); }

    /** Whether all samples so far have been passed on. */
    bool isCaughtUp() const;

private:
    void run (const std::stop_token&);
    void read (std::size_t count);

    InputRing ring;
    std::atomic<bool> isOn{ false };
    std::atomic<float> peak{ 0.0f };
    std::function<void (Piece)> take;

    mutable std::mutex mutex;
    std::condition_variable_any news;
    std::deque<listening::LevelColumn> kept;
    std::int64_t columnCount = 0;
    double sampleRate = 48000.0;
    bool isBusy = false, isNewRate = true;

    // Used by the reader's thread only:
    std::unique_ptr<listening::LevelColumns> columns;
    double rate = 48000.0;
    std::int64_t position = 0; ///< samples read at this rate

    std::jthread thread; ///< last: ends before what it uses
};

} // namespace plugin
