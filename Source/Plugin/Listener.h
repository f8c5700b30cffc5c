#pragma once

#include "InputReader.h"

#include "Fitting/Drum.h"
#include "Listening/LiveStrikes.h"

#include <condition_variable>
#include <functional>
#include <memory>
#include <mutex>
#include <string>
#include <thread>

namespace playlike
{
struct KnownDrum;
} // namespace playlike

namespace plugin
{

/** The spectrogram of a recording that was heard from a file. */
struct RecordedColumns
{
    std::string name; ///< of the file
    std::vector<listening::LevelColumn> columns{};
};

struct PlayedLike; // see PlayedLike.h

/** State and result of a lug check or of strikes. Immutable. */
struct ListeningReport
{
    enum class Stage
    {
        off,
        listening, ///< waiting for the tap beside lug `next`, or for a strike
        analysing  ///< fitting; strikes are heard meanwhile
    };

    enum class Job
    {
        lugCheck,
        strikes ///< of the finished drum
    };

    Stage stage = Stage::off;
    Job job = Job::lugCheck;
    listening::LugCheckRemark remark{};
    bool isSilent = false; ///< the input is all zeros

    /** Partials of the latest taps, oldest first. They start on the input's clock (see InputReader), or in the file. */
    std::vector<listening::HeardPartials> partials{};
    std::shared_ptr<const RecordedColumns> recorded{}; ///< if a file was heard instead of the input

    // Of a lug check:
    modal::HeadSide side = modal::HeadSide::batter;
    std::vector<std::optional<fitting::Estimate>> notes{}; ///< Hz, tap note beside each lug, from that tap alone
    int next = -1;                                         ///< the lug to tap next, from 0; -1: every lug was tapped
    std::optional<fitting::HeadFit> head{};                ///< after the analysis

    // Of strikes:
    int strikes = 0;
    std::shared_ptr<const fitting::DrumFit> drum{}; ///< after the first strike was analysed
    bool hasStroke = false;                         ///< one that playLike() can take
    std::shared_ptr<const PlayedLike> played{};     ///< after playLike()

    int heardCount() const noexcept;  ///< taps or strikes
    double meanNote() const noexcept; ///< Hz, geometric mean of the notes; 0 before the first
};

/** Listens to the plugin's audio input, or to files, during a lug check or to strikes of the finished drum. The audio thread
   copies samples; the reader's thread passes them on; a thread of its own, started with the first check, analyses them. */
class Listener
{
public:
    /** @param whenChanged  called on the listener's thread when report() has changed */
    explicit Listener (std::function<void()> whenChanged);

    /** Audio thread: the input's next samples; `right` may be null. Copies them while listening is on, otherwise does nothing. */
    void hear (const float* left, const float* right, int frames) noexcept { reader.hear (left, right, frames); }

    // Any thread but the audio thread. Requests are carried out in order on the listener's thread.

    /** Starts a new lug check, or listening to strikes.
        @throws modal::InputError for a sample rate or a drum out of range */
    void start (const fitting::HeadFitSetup&, double sampleRate);
    void start (const fitting::DrumFitSetup&, double sampleRate);

    /** Recordings with their names. May throw modal::InputError. */
    using Load = std::function<std::vector<std::pair<std::string, listening::Recording>>()>;

    /** Hears a recorded lug check, or recorded strikes, in place of the input; resume() then goes on with the input.
        @param inputRate  Hz, of the input
        @param load       called on the listener's thread */
    void hearFiles (const fitting::HeadFitSetup&, double inputRate, Load load);
    void hearFiles (const fitting::DrumFitSetup&, double inputRate, Load load);

    /** Analyses the strikes so far once more, with other prior knowledge. */
    void setKnown (const fitting::DrumFitSetup&);

    /** Sets this drum to ring and rattle as the last strike does; takes some seconds. */
    void playLike (const playlike::KnownDrum&);

    void stop();              ///< keeps the taps
    void forget();            ///< stops and drops the taps
    void deleteLastTap();     ///< or the last strike
    void chooseLug (int lug); ///< from 0: the lug to tap next; does not start listening
    void resume();            ///< listens again, from the lug to tap next
    void analyse();           ///< fits the taps so far; happens by itself after the last lug and after each strike

    /** The sample rate has changed: forgets all, and restarts the input's clock. Hz. */
    void setSampleRate (double);

    /** Whether the input's spectrogram is wanted while nothing is listened to. */
    void setWatched (bool);

    InputReader::Columns columnsFrom (std::int64_t number) const { return reader.columnsFrom (number); }
    std::shared_ptr<const ListeningReport> report() const;
    bool isListening() const noexcept { return isOn.load (std::memory_order_relaxed); }

    /** Peak of the input since the last call, full scale 1. */
    float takePeak() noexcept { return reader.takePeak(); }

    /** Whether all samples and requests so far have been processed. */
    bool isCaughtUp() const;

private:
    using Order = std::function<void()>;
    using Job = ListeningReport::Job;
    using Remark = listening::LugCheckRemark;

    void ask (Order);
    void begin (Order);
    void receive (InputReader::Piece);
    void run (const std::stop_token&);
    void listenTo (const InputReader::Piece&);
    void hearLugCheck (const fitting::HeadFitSetup&, double inputRate, const Load&);
    void hearStrikes (double inputRate, const Load&);
    void clear (Job);
    void listenOn();
    void setOn (bool);
    void fitHead();
    void fitStrikes();
    void makeAlike (const playlike::KnownDrum&);
    ListeningReport::Stage stageNow() const noexcept;
    void fail (const std::string& why);
    void publish (ListeningReport::Stage);
    template <typename Act>
    void withSession (Act&&);

    std::atomic<bool> isOn{ false }, isWatched{ false };
    std::function<void()> changed;

    mutable std::mutex mutex;
    std::condition_variable_any news;
    std::vector<Order> orders;
    std::vector<InputReader::Piece> pieces;
    std::shared_ptr<const ListeningReport> latest = std::make_shared<const ListeningReport>();
    bool isBusy = false;

    // Used by the listener's thread only:
    Job job = Job::lugCheck;
    std::unique_ptr<listening::LiveLugCheck> lugCheck;
    std::unique_ptr<listening::LiveStrikes> strikes;
    std::vector<listening::HeardPartials> partials;
    std::shared_ptr<const RecordedColumns> recorded;
    modal::HeadSide side = modal::HeadSide::batter;
    std::optional<fitting::HeadFit> head;
    fitting::DrumFitSetup known;
    std::shared_ptr<const fitting::DrumFit> drum;
    std::shared_ptr<const PlayedLike> played;
    Remark failure; ///< why the latest request could not be carried out
    bool wasSilent = false, isNewStrike = false;

    InputReader reader{ [this] (InputReader::Piece piece) { receive (std::move (piece)); } }; ///< ends before what it calls
    std::jthread thread; ///< last: ends before the reader, which it switches
};

} // namespace plugin
