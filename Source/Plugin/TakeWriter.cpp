#include "TakeWriter.h"

#include "Score/MidiNotes.h"

#include <juce_audio_formats/juce_audio_formats.h>

#include <cmath>

namespace plugin
{
namespace
{
constexpr int block = 512;

/** A file that appears when it is complete. */
class WavTrack
{
public:
    /** @param first, count  channels of the take that it holds */
    WavTrack (const juce::File& file, double sampleRate, int first, int count)
        : target (file), temporary (file), firstChannel (first), channels (count)
    {
        auto stream = temporary.getFile().createOutputStream();
        if (stream == nullptr)
            return;
        juce::WavAudioFormat wav;
        constexpr int floatBits = 32;
        writer.reset (wav.createWriterFor (stream.get(), sampleRate, static_cast<unsigned> (channels), floatBits, {}, 0));
        if (writer != nullptr)
            stream.release(); // now the writer's
    }

    bool write (float* const* take, int frames)
    {
        return writer != nullptr && writer->writeFromFloatArrays (take + firstChannel, channels, frames);
    }

    /** Completes the temporary file. */
    bool close()
    {
        const bool isWhole = writer != nullptr && writer->flush();
        writer.reset();
        return isWhole;
    }

    bool appear() const { return temporary.overwriteTargetFileWithTemporary(); }
    const juce::File& file() const noexcept { return target; }

private:
    juce::File target;
    juce::TemporaryFile temporary;
    std::unique_ptr<juce::AudioFormatWriter> writer;
    int firstChannel, channels;
};

/** The strokes as notes of General MIDI's percussion channel. */
juce::MidiFile midiOf (const score::Score& strokes, double beatsPerMinute)
{
    constexpr int ticksPerBeat = 960, drumChannel = 10;
    constexpr double microsecondsPerMinute = 6.0e7;
    const auto ticksOf = [&] (double seconds) { return std::round (seconds * beatsPerMinute / 60.0 * ticksPerBeat); };
    juce::MidiMessageSequence track;
    track.addEvent (juce::MidiMessage::tempoMetaEvent (juce::roundToInt (microsecondsPerMinute / beatsPerMinute)));

    for (std::size_t i = 0; i < strokes.size(); ++i)
    {
        const auto& [time, stroke] = strokes[i];
        // A note ends before the next begins, which may be the same note.
        const auto gap = i + 1 < strokes.size() ? strokes[i + 1].time - time : 1.0;
        const auto note = score::noteForStroke (stroke.kind, stroke.position);
        const auto velocity = static_cast<juce::uint8> (score::velocityOfSpeed (stroke.speed, stroke.kind));
        track.addEvent (juce::MidiMessage::noteOn (drumChannel, note, velocity), ticksOf (time));
        const auto held = stroke.kind == engine::StrokeKind::sweep ? stroke.sweepTime : 0.1;
        track.addEvent (juce::MidiMessage::noteOff (drumChannel, note), ticksOf (time + std::min (held, 0.9 * gap)));
    }

    track.sort();
    track.updateMatchedPairs();
    track.addEvent (juce::MidiMessage::endOfTrack(), track.getEndTime());
    juce::MidiFile file;
    file.setTicksPerQuarterNote (ticksPerBeat);
    file.addTrack (track);
    return file;
}

bool writeMidi (const juce::File& target, const juce::MidiFile& midi)
{
    const juce::TemporaryFile temporary (target);
    {
        juce::FileOutputStream stream (temporary.getFile());
        if (stream.failedToOpen() || ! midi.writeTo (stream))
            return false;
        stream.flush();
        if (stream.getStatus().failed())
            return false;
    }
    return temporary.overwriteTargetFileWithTemporary();
}
} // namespace

juce::String cannotWrite (const juce::File& file)
{
    return "Cannot write " + file.getFullPathName() + ": the folder may be read-only, or the disk full.";
}

TakeFiles TakeFiles::beside (const juce::File& mix)
{
    const auto sibling = [&] (const juce::String& end) { return mix.getSiblingFile (mix.getFileNameWithoutExtension() + end); };
    return { mix, { sibling ("-above.wav"), sibling ("-below.wav"), sibling ("-distant.wav") }, sibling (".mid") };
}

juce::StringArray TakeFiles::paths() const
{
    juce::StringArray all;
    for (const auto& file : { mix, microphones[0], microphones[1], microphones[2], midi })
        if (file != juce::File())
            all.add (file.getFullPathName());
    return all;
}

TakeWriter::TakeWriter() : juce::Thread ("take writer") {}

TakeWriter::~TakeWriter()
{
    cancel();
}

void TakeWriter::start (TakeRequest toPlay, TakeFiles to, double tempo)
{
    cancel();
    request = std::move (toPlay);
    files = std::move (to);
    beatsPerMinute = tempo;
    share = 0.0;
    startThread (Priority::low);
}

void TakeWriter::cancel()
{
    stopThread (-1); // until the block that is being played has ended
    cancelPendingUpdate();
}

void TakeWriter::run()
{
    result = write();
    if (! threadShouldExit())
        triggerAsyncUpdate();
}

TakeWriter::Result TakeWriter::write()
{
    Result written;
    OfflineTake take (request);
    const auto rate = request.model->setup().sampleRate;
    std::vector<std::unique_ptr<WavTrack>> tracks;
    const auto add = [&] (const juce::File& file, int first, int count)
    {
        if (file != juce::File())
            tracks.push_back (std::make_unique<WavTrack> (file, rate, first, count));
    };
    add (files.mix, 0, 2);
    for (std::size_t m = 0; m < files.microphones.size(); ++m)
        add (files.microphones[m], 2 + static_cast<int> (m), 1);

    std::array<std::array<float, block>, OfflineTake::channels> buffers{};
    std::array<float*, OfflineTake::channels> pointers{};
    for (std::size_t c = 0; c < pointers.size(); ++c)
        pointers[c] = buffers[c].data();

    long long done = 0;
    while (! tracks.empty())
    {
        const int frames = take.render (pointers.data(), block);
        if (frames == 0)
            break;
        if (threadShouldExit())
            return {}; // cancelled: the temporary files go with their tracks
        for (const auto& track : tracks)
            if (! track->write (pointers.data(), frames))
                return { cannotWrite (track->file()) };
        for (const auto& channel : buffers)
            for (int i = 0; i < frames; ++i)
                written.peak = std::max (written.peak, std::abs (channel[static_cast<std::size_t> (i)]));
        done += frames;
        share = static_cast<double> (done) / static_cast<double> (take.length());
    }

    // All are whole before the first appears.
    for (const auto& track : tracks)
        if (! track->close())
            return { cannotWrite (track->file()) };
    for (const auto& track : tracks)
        if (! track->appear())
            return { cannotWrite (track->file()) };
    if (files.midi != juce::File() && ! writeMidi (files.midi, midiOf (request.strokes, beatsPerMinute)))
        return { cannotWrite (files.midi) };

    return written;
}

void TakeWriter::handleAsyncUpdate()
{
    stopThread (-1); // has ended, or is about to
    if (onDone)
        onDone (result);
}

} // namespace plugin
