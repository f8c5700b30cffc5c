#pragma once

#include "OfflineTake.h"

#include <juce_events/juce_events.h>

namespace plugin
{

/** Why a file could not be written, as a sentence. */
juce::String cannotWrite (const juce::File&);

/** The files of one take; those that are juce::File() are not written. */
struct TakeFiles
{
    juce::File mix; ///< stereo, WAV
    std::array<juce::File, microphoneCount> microphones;
    juce::File midi; ///< a Standard MIDI File

    /** All of them beside `mix`: "Groove.wav", "Groove-above.wav" and so on, "Groove.mid". */
    static TakeFiles beside (const juce::File& mix);

    juce::StringArray paths() const;
};

/** Plays a take on a thread of its own and writes its files: 32-bit float WAV at the sample rate of the drum, each complete or
    not at all. Message thread, but for run(). */
class TakeWriter : private juce::Thread, private juce::AsyncUpdater
{
public:
    TakeWriter();
    ~TakeWriter() override; ///< cancels

    /** Cancels what still runs, and begins. Tempo in beats a minute, for the MIDI file. */
    void start (TakeRequest, TakeFiles, double tempo);

    void cancel();

    bool isRunning() const { return isThreadRunning(); }
    double progress() const noexcept { return share.load (std::memory_order_relaxed); } ///< 0 to 1

    struct Result
    {
        juce::String fault; ///< empty: all files are written
        float peak = 0.0f; ///< of all channels, full scale 1
    };

    /** Called on the message thread when the files are written, or when they cannot be. Not called after cancel(). */
    std::function<void (const Result&)> onDone;

private:
    void run() override;
    Result write();
    void handleAsyncUpdate() override;

    TakeRequest request;
    TakeFiles files;
    double beatsPerMinute = 100.0;
    std::atomic<double> share{ 0.0 };
    Result result;
};

} // namespace plugin
