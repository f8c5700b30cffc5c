#pragma once

#include "Taps.h"

#include "Fitting/Partial.h"

#include <functional>

namespace listening
{

/** A tap that has rung out. */
struct LiveTap
{
    const Recording& window; ///< the last seconds
    Tap tap;                 ///< times count from the start of `window`
    double quiet = 0.0;      ///< s in `window`, see quietestMoment()
    double start = 0.0;      ///< s of sound since listening began
};

/** The partials of a tap or strike, and when it was. */
struct HeardPartials
{
    double start = 0.0; ///< s of sound since listening began
    std::vector<fitting::Partial> partials{};
};

/** Finds taps in sound as it comes in, each once and as soon as it has rung for 0.9 s. */
class LiveTaps
{
public:
    /** @param sampleRate  Hz, 8000 to 192 000. @throws modal::InputError */
    explicit LiveTaps (double sampleRate);

    using Take = std::function<void (const LiveTap&)>;

    /** The next samples of the microphone, full scale 1, in pieces of any size.
        @param take  called for each tap that has rung out */
    void add (const float* samples, std::size_t count, const Take& take);

    /** Samples were lost since the last add(): sound that was not analysed yet is dropped. */
    void interrupt();

    double seconds() const noexcept { return windowStart + window.seconds(); } ///< of sound so far

    /** True after a second of zeros. */
    bool isSilent() const noexcept;

private:
    void analyse (const Take&);

    Recording window;
    double windowStart = 0.0, judgedUntil = 0.0; ///< s since listening began
    std::size_t unheard = 0;                     ///< samples of the window added since the last analysis
    std::size_t zeros = 0;                       ///< in a row, up to now
};

} // namespace listening
