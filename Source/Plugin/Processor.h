#pragma once

#include "ClipPlayer.h"
#include "DrumParameter.h"
#include "HeardTuning.h"
#include "Listener.h"
#include "LiveSound.h"
#include "Messages.h"
#include "Player.h"
#include "PresetLibrary.h"
#include "Solver.h"
#include "StateDocument.h"
#include "StrikeRecording.h"
#include "StrokeQueue.h"
#include "UndoRecorder.h"

#include <juce_audio_processors/juce_audio_processors.h>

namespace plugin
{

/** The plugin: its interface to the host and to the editor.

    Call members from the message thread unless they say otherwise. */
class Processor final : public juce::AudioProcessor, public juce::VST3ClientExtensions
{
public:
    using MakeEditor = std::function<std::unique_ptr<juce::AudioProcessorEditor> (Processor&)>;

    /** @param makeEditor   creates the editor; without it hosts get JUCE's generic editor
        @param presets      where presets are */
    explicit Processor (MakeEditor makeEditor = {}, PresetLibrary presets = PresetLibrary());
    ~Processor() override;

    // What an editor reads ------------------------------------------------------------------------------------------------------

    /** The latest drum: request, tensions, modes, prediction; nullptr until the first is solved (some tens of milliseconds after
        construction). Any thread but the audio thread. */
    std::shared_ptr<const SolvedDrum> solvedDrum() const { return solver.latest(); }

    /** Sends a change message on the message thread whenever solvedDrum() has changed. */
    juce::ChangeBroadcaster& solvedDrumChanged() noexcept { return drumBroadcaster; }

    const Messages& messages() const noexcept { return messageList; }
    const StrikeRecording& lastStrike() const noexcept { return recording; }

    /** Sends a change message on the message thread when listener().report() has changed. */
    juce::ChangeBroadcaster& heardChanged() noexcept { return heardBroadcaster; }

    /** Whether the host gives the plugin an audio input. */
    bool hasInput() const;

    /** Audio blocks processed so far; does not rise while the host is not running audio. Any thread. */
    std::uint32_t blockCount() const noexcept { return blocks.load (std::memory_order_relaxed); }

    double currentSampleRate() const noexcept { return playedRate.load (std::memory_order_relaxed); }

    DrumParameter& parameter (Parameter which) const { return *parameters[indexOf (which)]; }
    /** The values in use: the parameters', or a mix of the snapshots while the morph is on. */
    Values effectiveValues() const noexcept { return sound.effective(); }

    // What an editor does -------------------------------------------------------------------------------------------------------

    /** Plays a stroke now, exactly as given. False if the queue is full. */
    bool audition (const engine::Stroke& stroke) noexcept { return auditions.push (stroke); }

    juce::UndoManager& undoManager() noexcept { return undo; }

    /** Sets all parameters that differ, as one undo step named `whatFor`. */
    void setValues (const Values&, const juce::String& whatFor);

    /** The lug check and strikes at the audio input. */
    Listener& listener() noexcept { return inputListener; }
    const Listener& listener() const noexcept { return inputListener; }

    /** Starts a lug check of one head of the current drum. */
    void startListening (modal::HeadSide);

    /** Starts listening to strikes of the current drum, which has both heads. */
    void startHearingStrikes (const KnownOfDrum&);

    /** Analyses the strikes so far once more, with what is now known of the drum. */
    void setKnown (const KnownOfDrum&);

    /** The same from sound files (WAV, AIFF, FLAC, MP3): a lug check from one, strikes from one or more. */
    void hearLugCheck (modal::HeadSide, const juce::String& path);
    void hearStrikes (const KnownOfDrum&, const juce::StringArray& paths);

    /** Sets tap note and lugs to those measured by the lug check, as one undo step. */
    void applyMeasuredHead();

    /** Sets diameter and both tap notes to those of an answer to the strikes, as one undo step. */
    void applyAnswer (const fitting::DrumAnswer&);

    /** Finds the muffling and wires with which the model rings and rattles as the last strike does; takes some seconds, then
        listener().report() has the result. Nothing before the first drum is solved. */
    void playLikeLastStrike();

    /** Sets muffling and wires to those found, and the wires on or off, as one undo step. */
    void applyLikeness (const PlayedLike&);

    /** Plays a recording through the outputs, beside the drum, in place of what was played so before. */
    void hear (const listening::Recording&);

    /** The same with a sound at the output's sample rate; an empty one ends what plays. */
    void hear (std::shared_ptr<const Clip> clip) { clips.play (std::move (clip)); }
    bool isHearing() const noexcept { return clips.isPlaying(); }

    using Snapshot = LiveSound::Snapshot;
    static juce::String nameOf (Snapshot); ///< "A" to "H"
    bool hasSnapshot (Snapshot which) const noexcept { return sound.hasSnapshot (which); }
    Values snapshot (Snapshot which) const noexcept { return sound.snapshot (which); } ///< the initial values if there is none
    void storeSnapshot (Snapshot);
    void recallSnapshot (Snapshot);
    void clearSnapshot (Snapshot);

    PresetLibrary& presets() noexcept { return library; }
    void loadPreset (const PresetEntry&);
    void savePreset (const juce::String& name);
    /** Further tunings of the file are kept under the free letters. */
    void importPreset (const juce::File&);

    /** Writes a drum file with this tuning and the kept ones of the same drum. */
    void exportPreset (const juce::File&);
    juce::String presetName() const;

    /** Whether the drum differs from the one loaded or saved as presetName(). */
    bool isChangedSinceNamed() const;

    /** Everything a host saves with a song. Any thread but the audio thread. */
    State state() const;
    void setState (const State&);

    // juce::AudioProcessor ------------------------------------------------------------------------------------------------------

    const juce::String getName() const override;
    bool acceptsMidi() const override { return true; }
    bool producesMidi() const override { return false; }
    double getTailLengthSeconds() const override { return solver.sustain(); }
    juce::AudioProcessorParameter* getBypassParameter() const override { return &parameter (Parameter::bypass); }

    /** The input is a side chain, for the lug check. */
    bool getPluginHasMainInput() const override { return false; }

    bool isBusesLayoutSupported (const BusesLayout&) const override;
    void prepareToPlay (double sampleRate, int longestBlock) override;
    void releaseResources() override {}
    void reset() override { shouldReset.store (true); }
    void processBlock (juce::AudioBuffer<float>&, juce::MidiBuffer&) override;
    using juce::AudioProcessor::processBlock;

    int getNumPrograms() override { return 1; }
    int getCurrentProgram() override { return 0; }
    void setCurrentProgram (int) override {}
    const juce::String getProgramName (int) override;
    void changeProgramName (int, const juce::String&) override {}

    void getStateInformation (juce::MemoryBlock&) override;
    void setStateInformation (const void*, int) override;

    bool hasEditor() const override { return true; }
    juce::AudioProcessorEditor* createEditor() override;

    /** Models handed to the audio thread so far; for benchmarks. */
    int solvedCount() const noexcept { return solver.solvedCount(); }

private:
    static BusesProperties buses();
    void report (const juce::String& fault);
    void reporting (const std::function<void()>& act); ///< reports a modal::InputError
    fitting::HeadFitSetup headAsSet (modal::HeadSide) const;
    fitting::DrumFitSetup drumAsSet (const KnownOfDrum&) const;
    double inputRate() const noexcept; ///< Hz
    void setParameters (const Values&);
    void takeSound (const State& loaded, const juce::String& whatFor);
    void listen (const juce::AudioBuffer<float>&) noexcept;
    void takeModel() noexcept;
    void takeRoom() noexcept;
    void catchUp();
    PlayerOutputs outputsOf (juce::AudioBuffer<float>&, int offset) noexcept;
    void act (const MidiAction&) noexcept;
    void playAuditions() noexcept;
    void schedulePattern (const Values&, int frames) noexcept;

    LiveSound sound;
    Messages messageList;
    StrikeRecording recording;
    StrokeQueue auditions;
    Player player{ recording };
    ClipPlayer clips;
    MakeEditor editorMaker;
    PresetLibrary library;
    std::array<DrumParameter*, parameterCount> parameters{};
    juce::UndoManager undo;
    juce::ChangeBroadcaster drumBroadcaster, heardBroadcaster;
    std::atomic<bool> shouldReset{ false };
    std::atomic<double> playedRate{ 0.0 };
    std::atomic<std::uint32_t> blocks{ 0 };

    // What the state keeps besides parameters.
    struct Naming
    {
        std::string name;
        std::optional<Values> values; ///< of the preset of this name; none after a song was loaded, until they are looked up
    };
    class NamingChange;
    void nameAs (Naming);
    std::optional<Values> valuesOfPreset (const std::string& presetName) const;

    mutable std::mutex extrasMutex;
    mutable Naming naming;
    std::string unknown = "{}", unknownInSound = "{}";

    // Used by the audio thread only.
    struct DueStroke
    {
        int sample;
        engine::Stroke stroke;
    };
    static constexpr int mostDue = 2048;
    std::vector<DueStroke> due;
    double freeBeat = 0.0;
    bool wasPatternOn = false;
    std::unique_ptr<RoomDelivery> roomOnItsWay; ///< its room fades in

    Listener inputListener{ [this] { heardBroadcaster.sendChangeMessage(); } };
    Solver solver; ///< declared last, so that its thread ends before what it reads
    std::unique_ptr<UndoRecorder> recorder;
};

} // namespace plugin
