#include "Command.h"
#include "OutputFile.h"
#include "Playing.h"
#include "Progress.h"
#include "RenderOptions.h"
#include "StrokeOptions.h"
#include "TextTable.h"

#include "Modal/InputError.h"

#include <algorithm>
#include <cmath>
#include <iostream>

namespace tool
{

namespace
{
constexpr double usualPeak = 0.708;   // of full scale, -3 dB
constexpr double usualRinging = 3.0;  // s after the last stroke
constexpr double longestTake = 600.0; // s

/** A file that is being recorded, and the channels of the take that go into it. */
struct Track
{
    OutputFile output;
    WavFile wav;
    std::size_t firstChannel;

    Track (const std::string& target, const RenderSettings& s, std::size_t first, int channels)
        : output (target), wav (output.temporaryPath(), s.sampleRate, channels, s.format), firstChannel (first)
    {
    }
};

using Tracks = std::vector<std::unique_ptr<Track>>;

/** "snare.wav" and "above": "snare-above.wav". */
std::string targetOf (const std::string& target, const std::string& microphone)
{
    const std::filesystem::path path (target);
    return (path.parent_path() / (path.stem().string() + "-" + microphone + path.extension().string())).string();
}

Tracks openTracks (const std::string& target, const RenderSettings& s, const std::vector<engine::Microphone>& microphones)
{
    Tracks tracks;

    if (s.pickup != Pickup::each)
    {
        tracks.push_back (std::make_unique<Track> (target, s, 0, channelsOf (s.pickup)));
        return tracks;
    }

    if (target == "-")
        throw modal::InputError ("--each", "standard output", "a file's name with --output, from which three are made");

    for (const auto& microphone : microphones)
        tracks.push_back (std::make_unique<Track> (targetOf (target, microphone.name), s, tracks.size(), 1));

    return tracks;
}

/** Plays a take and shows progress; this is round `round` of `rounds`. */
void playWithProgress (Take& take, Progress& progress, int round, int rounds, const Take::Use& use)
{
    long long played = 0;
    take.play (
        [&] (const float* const* channels, int frames)
        {
            use (channels, frames);
            played += frames;
            progress.show ((round + static_cast<double> (played) / static_cast<double> (take.length())) / rounds);
        });
}

/** The loudest sample of all channels, Pa. */
double peakPressure (Take& take, Progress& progress, int round, int rounds)
{
    double peak = 0.0;
    playWithProgress (take, progress, round, rounds,
                      [&] (const float* const* channels, int frames)
                      {
                          for (int c = 0; c < take.channels(); ++c)
                              for (int i = 0; i < frames; ++i)
                                  peak = std::max (peak, std::abs (static_cast<double> (channels[c][i])));
                      });
    return peak;
}

/** Returns the loudest sample, Pa. */
double record (Take& take, Progress& progress, int round, int rounds, double scale, Tracks& tracks)
{
    double peak = 0.0;
    std::array<std::vector<float>, 3> scaled;
    std::array<const float*, 3> pointers{};

    playWithProgress (take, progress, round, rounds,
                      [&] (const float* const* channels, int frames)
                      {
                          for (std::size_t c = 0; c < static_cast<std::size_t> (take.channels()); ++c)
                          {
                              scaled[c].assign (channels[c], channels[c] + frames);

                              for (auto& sample : scaled[c])
                              {
                                  peak = std::max (peak, std::abs (static_cast<double> (sample)));
                                  sample *= static_cast<float> (scale);
                              }

                              pointers[c] = scaled[c].data();
                          }

                          for (auto& track : tracks)
                              track->wav.write (pointers.data() + track->firstChannel, frames);
                      });
    return peak;
}

void report (const engine::DrumModel& model, const Take& take, std::size_t strokes, double peak, double scale)
{
    constexpr double reference = 20.0e-6; // Pa, ISO 1683

    // Well below the 135 dB (C) peak at which Directive 2003/10/EC asks for protection (from memory): a part repeats its strokes.
    constexpr double loud = 120.0; // dB

    const auto level = 20.0 * std::log10 (std::max (peak, reference) / reference);
    std::cerr << strokes << (strokes == 1 ? " stroke, " : " strokes, ") << model.headModes() << " modes, " << model.wireContacts()
              << " wire contacts, peak " << modal::fixedText (peak, 1) << " Pa (" << modal::fixedText (level, 0)
              << " dB), full scale " << modal::fixedText (1.0 / scale, 1) << " Pa\n";

    if (take.lostStrokes() > 0)
        std::cerr << take.lostStrokes() << " strokes were left out: too many at once.\n";

    if (peak * scale > 1.0)
        std::cerr << "The loudest samples exceed full scale; integer formats clip them. Raise --full-scale.\n";

    if (level > loud)
        std::cerr
            << "CAUTION  A drum this loud harms hearing: wear ear protection near it, and turn the volume down before you play the file.\n";
}

/** Reports strokes that are not in the recording. */
void reportLeftOut (const StrokesRead& read, double seconds)
{
    for (const auto& remark : read.remarks)
        std::cerr << remark << "\n";

    const auto late =
        std::count_if (read.strokes.begin(), read.strokes.end(), [&] (const auto& stroke) { return stroke.time >= seconds; });

    if (late > 0)
        std::cerr << late << (late == 1 ? " stroke" : " strokes") << " after " << modal::asText (seconds, 4)
                  << " s left out: the recording ends there\n";
}

void run (const std::vector<std::string>& words, const Command& command)
{
    const Arguments arguments (words, command.allOptions());
    const auto target = outputTarget (arguments, "output", { ".wav" });

    if (! target)
        throw modal::InputError::fault ("--output", "is missing", "a file to write, or - for standard output");

    const auto settings = readRenderSettings (arguments);
    const auto read = readStrokes (arguments);
    const auto& strokes = read.strokes;
    const auto tuned = chooseOne (arguments);
    const auto seconds = settings.seconds.value_or (std::min (score::lastStroke (strokes) + usualRinging, longestTake));

    auto setup = setUpToPlay (tuned, readMicrophones (arguments, tuned.drum), settings.sampleRate, highestAsked (arguments),
                              settings.detail);
    const auto model = std::make_shared<const engine::DrumModel> (setup);
    Take take (model, strokes, settings.pickup, std::llround (seconds * settings.sampleRate));
    auto tracks = openTracks (*target, settings, setup.microphones);
    double peak = 0.0, scale = 0.0;

    {
        // Without a scale of its own a take is played twice: to find its peak, and to be written.
        Progress progress (settings.showsProgress);
        const int rounds = settings.fullScale ? 1 : 2;
        scale = settings.fullScale ? 1.0 / *settings.fullScale
                                   : usualPeak / std::max (peakPressure (take, progress, 0, rounds), 1.0e-12);
        peak = record (take, progress, rounds - 1, rounds, scale, tracks);
    }

    for (auto& track : tracks)
        track->wav.close();
    for (auto& track : tracks)
        track->output.commit();

    report (*model, take, strokes.size(), peak, scale);
    reportLeftOut (read, seconds);
}
} // namespace

const Command& renderCommand()
{
    static const Command command{
        "render",
        "Plays a stroke, a pattern or a MIDI file on the drum, as WAV files",
        "[DRUM] [options] --output FILE.wav",
        "A physical model of stick, heads, air, wires, hoops and shell; no recordings.\n"
        "The stereo mix: microphone above at 0 dB, slightly left; below at -6 dB, slightly right; distant at +6 dB.\n"
        "MIDI notes: 37 cross-stick, 38 off centre, 40 rimshot, 24 centre, 25 half way, 26 edge, 23 rimshot at the edge, 22 "
        "buzz, "
        "21 double.\n"
        "Play files at low volume first: a drum's attack is much louder than its average, and loud playback harms hearing.\n",
        { strokeOptions(), renderOptions() },
        true,
        run
    };
    return command;
}

} // namespace tool
