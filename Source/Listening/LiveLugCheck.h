#pragma once

#include "LiveTaps.h"
#include "LugCheck.h"

#include <optional>

namespace listening
{

/** Result of the last tap of a lug check, or of the last strike of a whole drum. */
struct LugCheckRemark
{
    enum class Kind
    {
        none,
        heard,     ///< the tap at `lug` was used
        deleted,   ///< the tap at `lug` was deleted
        troubles,  ///< not used for its `troubles`
        noFit,     ///< not used: it does not fit the head as stated, see `findings`
        farOff,    ///< not used: `cents` away from the other lugs
        soundLost, ///< part of the input was lost
        failed     ///< the input cannot be used, see `error`
    };

    Kind kind = Kind::none;
    int lug = -1; ///< from 0; -1: a strike of the whole drum
    std::vector<Trouble> troubles{};
    std::vector<fitting::Finding> findings{};
    double cents = 0.0;
    std::string error{}; ///< message of a modal::InputError

    bool isRefusal() const noexcept { return kind > Kind::deleted; }
    bool operator== (const LugCheckRemark&) const = default;
};

/** Analyses a lug check while it is made: samples go in, taps come out one by one. A tap with any trouble is rejected and
   reported, so that it can be repeated at once.

    Not for an audio thread: add() takes up to a second when a tap is complete. */
class LiveLugCheck
{
public:
    /** @param sampleRate  Hz, 8000 to 192 000
        @throws modal::InputError for a sample rate or a drum out of range */
    LiveLugCheck (const fitting::HeadFitSetup&, double sampleRate);

    /** The next samples of the microphone, full scale 1, in pieces of any size. */
    void add (const float* samples, std::size_t count);

    using Remark = LugCheckRemark;

    /** Samples were lost since the last add(). @param why  the new remark, unless it is `none` */
    void interrupt (Remark why = {});

    /** The result of a tap beside a lug. */
    struct Lug
    {
        fitting::Estimate tapNote{}; ///< Hz, from this tap alone
        fitting::HeardTap tap;
    };

    const std::vector<std::optional<Lug>>& lugs() const noexcept { return heard; }
    int heardCount() const noexcept;

    int nextLug() const noexcept { return next; } ///< lug of the next tap, from 0; -1: every lug has its tap
    void chooseLug (int lug);                     ///< the next tap is beside this lug and replaces its tap

    /** Deletes the last tap used; the next tap is for the same lug again. False if there is none. */
    bool deleteLastTap();

    const Remark& remark() const noexcept { return lastRemark; }

    /** The partials of the last tap that was read, whether it was used or not. */
    const HeardPartials& lastPartials() const noexcept { return last; }

    double seconds() const noexcept { return incoming.seconds(); }   ///< of sound so far
    bool isSilent() const noexcept { return incoming.isSilent(); } ///< after a second of zeros

    /** A tap that was heard elsewhere, as in a file; used or refused like one of the microphone. */
    void use (fitting::HeardTap);

    const modal::DrumSpec& drum() const noexcept { return setup.drum; }

    /** The head fitted to all taps used. */
    fitting::HeadFit fit() const;

private:
    void take (const LiveTap&);
    void findNext();
    double medianNoteWithout (int lug) const;

    fitting::HeadFitSetup setup;
    LiveTaps incoming;
    HeardPartials last;
    std::vector<std::optional<Lug>> heard;
    std::vector<int> order; ///< lugs in the order tapped
    int next = 0;
    std::optional<double> tension; ///< N/m, from the last tap used
    Remark lastRemark;
};

} // namespace listening
