// Prints the measures of recorded snare drums and of the instrument side by side:
//   recording-measures [--drum NAME]... [--strokes N] [--place SHARE] [--microphone NAME] [--picture FILE] [FOLDER]
// FOLDER, or else the environment's SNAREWRIGHT_RECORDINGS, has a folder for each kit, with a sound file for each stroke in
// folders head-on, head-off, rimshot-on and rimshot-off (on and off: the wires). The instrument plays N strokes of each kind
// (3 unless given) from 2 to 4 m/s: with the wires on T60 differs by a third from one to the next. It is struck at this share of
// the radius from the centre, and heard by one microphone (above, below, distant) or by the usual mix of all. Each drum plays in
// its first tuning and, "high", with its heads as tight as those of the recorded drum whose partials are known.

#include "Instrument.h"
#include "MelDistance.h"
#include "Picture.h"

#include "Files/Presets.h"
#include "Modal/InputError.h"
#include "Modal/NumberText.h"

#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <iostream>

namespace
{
using namespace recordings;

struct Options
{
    std::vector<std::string> drums;
    std::string picture, folder;
    Playing playing;
};

/** Evenly from 2 to 4 m/s. */
std::vector<double> speedsOf (const std::string& text)
{
    std::string_view rest = text;
    const auto strokes = modal::takeNumber (rest);
    if (! strokes || ! rest.empty() || ! (*strokes >= 1.0 && *strokes <= 100.0))
        throw modal::InputError ("--strokes", text, "1 to 100");
    std::vector<double> speeds;
    const int last = static_cast<int> (*strokes) - 1;
    for (int i = 0; i <= last; ++i)
        speeds.push_back (last > 0 ? 2.0 + 2.0 * i / last : 3.0);
    return speeds;
}

Options read (int count, const char* const* words)
{
    Options options;
    if (const char* folder = std::getenv ("SNAREWRIGHT_RECORDINGS"))
        options.folder = folder;

    for (int i = 1; i < count; ++i)
    {
        const std::string word = words[i];
        const auto value = [&] (const char* needed)
        {
            if (i + 1 == count)
                throw modal::InputError::fault (word, "has no value", needed);
            return std::string (words[++i]);
        };

        if (word == "--drum")
            options.drums.push_back (value ("a preset or a drum file"));
        else if (word == "--picture")
            options.picture = value ("a file's name");
        else if (word == "--microphone")
            options.playing.microphone = value ("above, below or distant");
        else if (word == "--strokes")
            options.playing.speeds = speedsOf (value ("how many strokes, 1 to 100"));
        else if (word == "--place")
        {
            constexpr auto needed = "a share of the radius, 0 to 0.98";
            const auto text = value (needed);
            std::string_view rest = text;
            const auto share = modal::takeNumber (rest);
            if (! share || ! rest.empty() || *share < 0.0 || *share > 0.98)
                throw modal::InputError (word, text, needed);
            options.playing.place = *share;
        }
        else
            options.folder = word;
    }

    if (options.drums.empty())
        options.drums = { "maple-14x5", "steel-14x4" };
    return options;
}

void printClass (const StrokeSet& set, const ClassName& name)
{
    const auto& strokes = set.strokes.at (name.strokes);
    const auto measures = medianMeasures (strokes);
    std::printf ("%-18.18s %-18s %2zu ", set.name.c_str(), name.words, strokes.size());

    for (const auto& band : measures.bands)
        std::printf (" %6.1f", band.level);

    const auto& attack = measures.bands[octave4k];
    std::printf ("  %6.1f %5.0f ", attack.attack, 1000.0 * attack.peakTime);

    for (auto octave = octave1k; octave < octaves.size(); ++octave)
        if (const auto time = measures.bands[octave].t60)
            std::printf (" %5.0f", 1000.0 * *time);
        else
            std::printf ("     -");

    std::printf ("\n");
}

void printComparison (const StrokeSet& set, StrokeClass one, StrokeClass against, const char* words)
{
    const auto a = set.strokes.find (one), b = set.strokes.find (against);
    if (a == set.strokes.end() || b == set.strokes.end())
        return;

    const auto difference = compare (medianMeasures (a->second), medianMeasures (b->second));
    std::printf ("%-18.18s %-22s", set.name.c_str(), words);
    for (const double level : difference.levels)
        std::printf (" %+6.1f", level);
    std::printf ("   %+5.1f %+8.1f %+8.1f\n", brighter (difference), difference.loudness, difference.loudnessA);
}

void printMeasures (const std::vector<StrokeSet>& sets)
{
    std::printf ("%-18s %-18s %2s  %-48s  %6s %5s  %s\n", "", "", "", "octave levels (dB)", "4-8kHz", "", "T60 (ms)");
    std::printf ("%-18s %-18s %2s     125    250    500     1k     2k     4k     8k  attack  peak     1k    2k    4k    8k\n",
                 "drum", "strokes", "n");

    for (const auto& name : classNames)
        for (const auto& set : sets)
            if (set.strokes.count (name.strokes) > 0)
                printClass (set, name);

    std::printf (
        "\n%-18s %-22s    125    250    500     1k     2k     4k     8k  1-8kHz  loudness, A-weighted (dB, equal gain)\n", "drum",
        "difference");
    for (const auto& set : sets)
    {
        printComparison (set, StrokeClass::headOn, StrokeClass::headOff, "wires on - off");
        printComparison (set, StrokeClass::rimshotOn, StrokeClass::headOn, "rimshot - head, on");
        printComparison (set, StrokeClass::rimshotOff, StrokeClass::headOff, "rimshot - head, off");
    }
}

/** From a soft stroke to the hardest, wires off, in the band where the drum's lowest mode is. */
void printGlide (files::DrumFile file)
{
    file.wires.on = false;
    std::printf ("%-18.18s glide of the lowest mode, wires off:", file.drum.name.c_str());

    for (const double speed : { 1.0, 3.0, 6.0, 10.0 })
    {
        engine::Stroke stroke;
        stroke.position = 0.0; // where the next modes up, (1,1), are not heard
        stroke.speed = speed;
        if (const auto glide = glideOf (played (file, stroke), 90.0, 280.0))
            std::printf ("  %.0f m/s %+.0f cents", speed, glide->cents());
    }

    std::printf ("\n");
}

std::vector<MelSpectrograms> spectrograms (const std::vector<StrokeSet>& sets, StrokeClass strokes)
{
    std::vector<MelSpectrograms> all;

    for (const auto& set : sets)
        if (const auto found = set.strokes.find (strokes); found != set.strokes.end())
        {
            auto& own = all.emplace_back();
            for (const auto& stroke : found->second)
                own.push_back (melSpectrogram (stroke));
        }

    return all;
}

void printDistances (const std::vector<StrokeSet>& kits, const std::vector<StrokeSet>& instruments)
{
    std::printf ("\ndistance to the nearest kit over that of kits to one another (log mel spectrograms)\n");

    for (const auto& [strokes, folder, words] : classNames)
        if (const auto recorded = spectrograms (kits, strokes); recorded.size() >= 2)
            for (const auto& set : instruments)
                std::printf ("%-18.18s %-18s  %.2f\n", set.name.c_str(), words,
                             relativeDistance (spectrograms ({ set }, strokes).front(), recorded));
}

void run (const Options& options)
{
    std::vector<StrokeSet> kits, instruments;
    if (! options.folder.empty())
        kits = readKits (options.folder);
    std::vector<files::DrumFile> drums;
    for (const auto& name : options.drums)
    {
        drums.push_back (files::openDrum (name));
        drums.push_back (tunedAsRecorded (drums.back()));
    }
    for (const auto& drum : drums)
        instruments.push_back (instrument (drum, options.playing));

    auto all = kits;
    all.insert (all.end(), instruments.begin(), instruments.end());
    printMeasures (all);
    std::printf ("\n");
    for (const auto& drum : drums)
        printGlide (drum);
    if (kits.size() >= 2)
        printDistances (kits, instruments);

    if (! options.picture.empty())
        std::ofstream (options.picture, std::ios::binary) << picture (all, sheets::formatOf (options.picture, "--picture"));
}
} // namespace

int main (int count, char** words)
{
    try
    {
        run (read (count, words));
        return 0;
    }
    catch (const std::exception& error)
    {
        std::cerr << "recording-measures: " << error.what() << "\n";
        return 2;
    }
}
