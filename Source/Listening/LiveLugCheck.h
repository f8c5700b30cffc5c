#pragma once

#include "LugCheck.h"

#include <optional>

namespace listening
{

/** A walk that is heard while it is walked: sound comes in pieces, taps come out one by one. A tap with any trouble is not taken
    and said, so that it can be tapped again at once.

    Not for an audio thread: a piece in which a tap has rung out takes up to a second. */
class LiveLugCheck
{
public:
    /** @param sampleRate  Hz, 8000 to 192 000
        @throws modal::InputError for a rate out of range or a drum that cannot be */
    LiveLugCheck (const fitting::HeadFitSetup&, double sampleRate);

    /** The next samples of the microphone, full scale 1. How they are cut into pieces does not matter. */
    void add (const float* samples, std::size_t count);

    /** Samples are missing between what was added and what comes. @param why  to be said, if not empty */
    void interrupt (const std::string& why = {});

    /** What a tap beside a lug gave. */
    struct Lug
    {
        fitting::Estimate tapNote{}; ///< Hz, of the head as this tap alone hears it
        fitting::HeardTap tap;
    };

    const std::vector<std::optional<Lug>>& lugs() const noexcept { return heard; }
    int heardCount() const noexcept;

    int nextLug() const noexcept { return next; } ///< the lug that the next tap counts for, from 0; -1: every lug has its tap
    void chooseLug (int lug);                     ///< the next tap is beside this one; it replaces what was heard there

    /** Forgets the tap that was taken last, which is then wanted again. False if there is none. */
    bool takeBack();

    /** What came of the last tap, as a sentence; empty before any. */
    struct Remark
    {
        std::string text;
        bool isRefusal = false;
    };

    const Remark& remark() const noexcept { return said; }

    /** True once a second of nothing but zeros has come in. */
    bool isSilent() const noexcept;

    /** The head from all taps that were taken. */
    fitting::HeadFit fit() const;

private:
    void analyse();
    void take (const Tap&, double quiet);
    void refuse (const std::string& why);
    void findNext();
    double middleNoteWithout (int lug) const;

    fitting::HeadFitSetup setup;
    Recording window;                            ///< the last seconds
    double windowStart = 0.0, judgedUntil = 0.0; ///< s since listening began
    std::size_t unheard = 0;                     ///< samples of the window that came since it was last looked at
    std::size_t zeros = 0;                       ///< in a row, up to now
    std::vector<std::optional<Lug>> heard;
    std::vector<int> order; ///< lugs in the order in which they were taken
    int next = 0;
    std::optional<double> tension; ///< N/m, of the last tap that was taken
    Remark said;
};

} // namespace listening
