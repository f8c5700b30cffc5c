#include "Band.h"
#include "Command.h"
#include "OutputFile.h"
#include "OutputTarget.h"
#include "PlaceOptions.h"
#include "Playing.h"
#include "Progress.h"
#include "RenderOptions.h"
#include "Spool.h"
#include "StrokeOptions.h"
#include "TextTable.h"
#include "Versus.h"

#include "Modal/InputError.h"
#include "Score/Loudness.h"

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
constexpr double highestPeak = 0.891; // of full scale, -1 dB, where a loudness is asked for
constexpr double pauseBetween = 1.0;  // s between tunings in one file
constexpr std::size_t mostTunings = 12;

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

/** A take that waits in a temporary file until its scale is known, and the files it goes to. */
struct Recorded
{
    std::string label; ///< drum and tuning
    std::shared_ptr<const engine::DrumModel> model;
    Take take;
    Tracks tracks;
    Spool spool;
    score::LoudnessMeter meter;
    double peak = 0.0;  ///< Pa
    double scale = 0.0; ///< of full scale per Pa

    Recorded (const TunedDrum& tuned, const engine::DrumSetup& setup, const score::Score& strokes, double seconds,
              const RenderSettings& s, const std::string& target)
        : label (tuned.label()), model (std::make_shared<const engine::DrumModel> (setup)),
          take (model, strokes, s.pickup, mixOf (tuned), std::llround (seconds * s.sampleRate),
                isHeardByListener (s.pickup) ? tuned.place : std::nullopt),
          tracks (openTracks (target, s, setup.microphones)), spool (take.channels()), meter (s.sampleRate, take.channels())
    {
    }
};

using Recordings = std::vector<std::unique_ptr<Recorded>>;

/** Plays the take once. `show` gets the share that has been played. */
void play (Recorded& r, const std::function<void (double)>& show)
{
    long long played = 0;
    r.take.play (
        [&] (const float* const* channels, int frames)
        {
            for (int c = 0; c < r.take.channels(); ++c)
                for (int i = 0; i < frames; ++i)
                    r.peak = std::max (r.peak, std::abs (static_cast<double> (channels[c][i])));

            r.spool.append (channels, frames);
            r.meter.add (channels, frames);
            played += frames;
            show (static_cast<double> (played) / static_cast<double> (r.take.length()));
        });
}

/** One scale for all, or each take's own for one loudness; lowered by the same amount for all if any would clip. */
void setScales (Recordings& recordings, const RenderSettings& s)
{
    double loudest = 1.0e-12; // Pa
    for (const auto& r : recordings)
        loudest = std::max (loudest, r->peak);

    double highest = 0.0; // sample, of full scale
    for (auto& r : recordings)
    {
        r->scale = s.fullScale ? 1.0 / *s.fullScale : s.loudness ? r->meter.gainFor (*s.loudness) : usualPeak / loudest;
        highest = std::max (highest, r->scale * r->peak);
    }

    if (s.loudness && highest > highestPeak)
        for (auto& r : recordings)
            r->scale *= highestPeak / highest;
}

/** Calls `use` with each block of the take, scaled. */
void replayScaled (Recorded& r, const Take::Use& use)
{
    std::array<std::vector<float>, 3> scaled;
    std::array<const float*, 3> pointers{};

    r.spool.replay (
        [&] (const float* const* channels, int frames)
        {
            for (std::size_t c = 0; c < static_cast<std::size_t> (r.take.channels()); ++c)
            {
                scaled[c].assign (channels[c], channels[c] + frames);

                for (auto& sample : scaled[c])
                    sample *= static_cast<float> (r.scale);

                pointers[c] = scaled[c].data();
            }

            use (pointers.data(), frames);
        });
}

void write (Recorded& r)
{
    replayScaled (r,
                  [&] (const float* const* channels, int frames)
                  {
                      for (auto& track : r.tracks)
                          track->wav.write (channels + track->firstChannel, frames);
                  });

    for (auto& track : r.tracks)
        track->wav.close();
}

/** The file that all takes go to, one after the other; null unless it is asked for. */
std::unique_ptr<Track> openOneFile (const Arguments& arguments, const Recordings& recordings, const RenderSettings& s,
                                    const std::vector<std::string>& otherTargets)
{
    const auto target = outputTarget (arguments, "one-file", { ".wav" });

    if (! target)
        return nullptr;

    if (*target == "-")
        throw modal::InputError ("--one-file", "standard output", "a file's name");

    if (arguments.has ("each"))
        throw modal::InputError::fault ("--one-file", "is given beside --each", "one of the two");

    if (std::find (otherTargets.begin(), otherTargets.end(), *target) != otherTargets.end())
        throw modal::InputError ("--one-file", '"' + *target + '"', "another name than that of a single tuning's file");

    const int channels = recordings.front()->take.channels();

    for (const auto& r : recordings)
        if (r->take.channels() != channels)
            throw modal::InputError ("--one-file", "tunings with one channel and with two", "tunings with as many channels each");

    return std::make_unique<Track> (*target, s, 0, channels);
}

void writeOneAfterOther (const Recordings& recordings, const RenderSettings& s, WavFile& wav)
{
    const std::vector<float> pause (static_cast<std::size_t> (std::llround (pauseBetween * s.sampleRate)));
    const std::array<const float*, 3> silence{ pause.data(), pause.data(), pause.data() };

    for (const auto& r : recordings)
    {
        if (r != recordings.front())
            wav.write (silence.data(), static_cast<int> (pause.size()));

        replayScaled (*r, [&] (const float* const* channels, int frames) { wav.write (channels, frames); });
    }

    wav.close();
}

double levelOf (const Recorded& r)
{
    constexpr double reference = 20.0e-6; // Pa, ISO 1683
    return 20.0 * std::log10 (std::max (r.peak, reference) / reference);
}

void report (const Recorded& r, std::size_t strokes, Pickup pickup)
{
    const auto loudness = r.meter.loudness (r.scale);

    std::cerr << strokes << (strokes == 1 ? " stroke, " : " strokes, ") << r.model->headModes() << " modes, "
              << r.model->wireContacts() << " wire contacts, peak " << modal::fixedText (r.peak, 1) << " Pa ("
              << modal::fixedText (levelOf (r), 0) << " dB), full scale " << modal::fixedText (1.0 / r.scale, 1) << " Pa";

    if (pickup != Pickup::each && std::isfinite (loudness))
        std::cerr << ", " << modal::fixedText (loudness, 1) << " LUFS";

    std::cerr << "\n";

    if (r.take.lostStrokes() > 0)
        std::cerr << r.take.lostStrokes() << " strokes were left out: too many at once.\n";
}

void reportLevels (const Recordings& recordings, const RenderSettings& s)
{
    // Well below the 135 dB (C) peak at which Directive 2003/10/EC asks for protection (from memory): a part repeats its strokes.
    constexpr double loud = 120.0; // dB

    const auto any = [&] (const auto& isSo)
    { return std::any_of (recordings.begin(), recordings.end(), [&] (const auto& r) { return isSo (*r); }); };

    if (s.loudness && any ([&] (const Recorded& r) { return r.meter.loudness (r.scale) < *s.loudness - 0.05; }))
        std::cerr << modal::fixedText (*s.loudness, 1)
                  << " LUFS would clip: " << (recordings.size() > 1 ? "all are lowered alike, to " : "lowered to ")
                  << modal::fixedText (recordings.front()->meter.loudness (recordings.front()->scale), 1) << " LUFS\n";

    if (any ([] (const Recorded& r) { return r.peak * r.scale > 1.0; }))
        std::cerr << "The loudest samples exceed full scale; integer formats clip them. Raise --full-scale.\n";

    if (any ([&] (const Recorded& r) { return levelOf (r) > loud; }))
        std::cerr << "CAUTION  A drum this loud harms hearing: wear ear protection near it, and turn the volume down before you "
                     "play the file.\n";
}

/** Reports strokes that are not in the recording. */
void reportLeftOut (const score::StrokesRead& read, double seconds)
{
    for (const auto& remark : read.remarks)
        std::cerr << remark << "\n";

    const auto late =
        std::count_if (read.strokes.begin(), read.strokes.end(), [&] (const auto& stroke) { return stroke.time >= seconds; });

    if (late > 0)
        std::cerr << late << (late == 1 ? " stroke" : " strokes") << " after " << modal::asText (seconds, 4)
                  << " s left out: the recording ends there\n";
}

/** The tunings between each "vs", all of the drum's own with --every-tuning, else one. */
std::vector<TunedDrum> chooseTunings (const VersusArguments& versus)
{
    const bool takesEvery = versus.common().has ("every-tuning");

    if (takesEvery && versus.hasVersus())
        throw modal::InputError::fault ("--every-tuning", "is given beside \"vs\"", "one of the two");

    const auto chosen = takesEvery ? chooseAll (versus.common()) : versus.tunings();

    if (chosen.size() > mostTunings)
        throw modal::InputError ("tunings", std::to_string (chosen.size()), "at most " + std::to_string (mostTunings));

    return chosen;
}

/** s after the last stroke until drums and places have died away. */
double ringingOf (const std::vector<TunedDrum>& tunings)
{
    double longest = usualRinging;

    for (const auto& tuned : tunings)
        if (tuned.place)
            longest = std::max (longest, *std::max_element (tuned.place->times.begin(), tuned.place->times.end()));

    return longest;
}

void runRender (const std::vector<std::string>& words, const Command& command)
{
    const VersusArguments versus (words, command.allOptions());
    const auto& arguments = versus.common();
    const auto target = outputTarget (arguments, "output", { ".wav" });

    if (! target)
        throw modal::InputError::fault ("--output", "is missing", "a file to write, or - for standard output");

    const auto settings = readRenderSettings (arguments);
    const auto chosen = chooseTunings (versus);

    if (arguments.has ("microphone") || arguments.has ("each") ||
        std::none_of (chosen.begin(), chosen.end(), [] (const auto& tuned) { return tuned.place.has_value(); }))
        arguments.refuse ("listener", "--place without --microphone or --each");

    const auto read = readStrokes (arguments, chosen.front().pattern, chosen.front().fittings.stick.isBrush());
    const auto& strokes = read.strokes;
    const auto seconds = settings.seconds.value_or (std::min (score::lastStroke (strokes) + ringingOf (chosen), longestTake));

    if (chosen.size() > 1 && *target == "-")
        throw modal::InputError ("--output", "standard output", "a file's name, from which one for each tuning is made");

    Recordings recordings;
    std::vector<std::string> targets;

    for (const auto& tuned : chosen)
    {
        const auto setup = setUpToPlay (tuned, readMicrophones (arguments, tuned), settings.sampleRate, highestAsked (arguments),
                                        settings.detail);
        const auto name = chosen.size() == 1 ? *target : targetOf (*target, std::to_string (recordings.size() + 1));
        targets.push_back (name);
        recordings.push_back (std::make_unique<Recorded> (tuned, setup, strokes, seconds,
                                                          tuned.place ? inPlace (settings, arguments) : settings, name));
    }

    const auto oneFile = openOneFile (arguments, recordings, settings, targets);

    {
        Progress progress (settings.showsProgress);
        const auto count = static_cast<double> (recordings.size());

        for (std::size_t i = 0; i < recordings.size(); ++i)
            play (*recordings[i], [&] (double share) { progress.show ((static_cast<double> (i) + share) / count); });
    }

    setScales (recordings, settings);

    for (auto& r : recordings)
        write (*r);
    if (oneFile)
        writeOneAfterOther (recordings, settings, oneFile->wav);
    for (auto& r : recordings)
        for (auto& track : r->tracks)
            track->output.commit();
    if (oneFile)
        oneFile->output.commit();

    for (std::size_t i = 0; i < recordings.size(); ++i)
    {
        if (recordings.size() > 1)
            std::cerr << i + 1 << "  " << recordings[i]->label << ": ";

        report (*recordings[i], strokes.size(), settings.pickup);
    }

    reportLevels (recordings, settings);
    reportLeftOut (read, seconds);
}
} // namespace

const Command& renderCommand()
{
    static const Command command{
        "render",
        "Plays a stroke, a pattern or a MIDI file on the drum, as WAV files",
        "[DRUM] [options] [vs [DRUM] [options]]... --output FILE.wav",
        "A physical model of stick, heads, air, wires, hoops and shell; no recordings.\n"
        "With a place, the file holds what its listener hears of what the distant microphone picks up, as if the drum radiated "
        "alike in all directions.\n"
        "A drum file's pattern plays if no stroke, pattern or MIDI file is given; its microphones and their levels hold.\n"
        "Otherwise the stereo mix: microphone above at 0 dB, slightly left; below at -6 dB, slightly right; distant at +6 dB.\n"
        "MIDI notes: 37 cross-stick, 38 off centre, 40 rimshot, 24 centre, 25 half way, 26 edge, 23 rimshot at the edge, 22 "
        "buzz, 21 double.\n"
        "Several tunings, with \"vs\" between them as in \"compare\" or with --every-tuning, go to FILE-1.wav, FILE-2.wav and so "
        "on, on one scale.\n"
        "Play files at low volume first: a drum's attack is much louder than its average, and loud playback harms hearing.\n",
        { strokeOptions(), renderOptions(), placeOptions() },
        true,
        runRender
    };
    return command;
}

} // namespace tool
