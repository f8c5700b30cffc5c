#include "StrokeSet.h"

#include "Modal/InputError.h"
#include "SoundFiles/AudioFile.h"

#include <algorithm>

namespace recordings
{

namespace
{
std::vector<std::filesystem::path> entriesOf (const std::filesystem::path& folder, bool wantsFolders)
{
    std::vector<std::filesystem::path> paths;

    for (const auto& entry : std::filesystem::directory_iterator (folder))
        if (entry.is_directory() == wantsFolders)
            paths.push_back (entry.path());

    std::sort (paths.begin(), paths.end());
    return paths;
}
} // namespace

StrokeSet readKit (const std::filesystem::path& folder)
{
    StrokeSet kit{ folder.filename().string(), {} };

    for (const auto& [strokes, name, words] : classNames)
        if (std::filesystem::is_directory (folder / name))
            for (const auto& path : entriesOf (folder / name, false))
                kit.strokes[strokes].push_back (strokeOf (soundfiles::loadRecording (path.string(), words)));

    if (kit.strokes.empty())
        throw modal::InputError::fault ("the kit \"" + folder.string() + "\"", "has no strokes",
                                        "folders head-on, head-off, rimshot-on or rimshot-off with a sound file for each stroke");
    return kit;
}

std::vector<StrokeSet> readKits (const std::filesystem::path& folder)
{
    if (! std::filesystem::is_directory (folder))
        throw modal::InputError::fault ("the folder of recordings, \"" + folder.string() + "\",", "does not exist",
                                        "a folder with a folder for each kit");
    std::vector<StrokeSet> kits;

    for (const auto& path : entriesOf (folder, true))
        kits.push_back (readKit (path));

    return kits;
}

StrokeMeasures medianMeasures (const std::vector<listening::Recording>& strokes)
{
    std::vector<StrokeMeasures> all;
    for (const auto& stroke : strokes)
        all.push_back (measure (stroke));

    const auto medianOf = [&all] (auto value)
    {
        std::vector<double> values;
        for (const auto& each : all)
            values.push_back (value (each));
        return median (values);
    };

    StrokeMeasures middle;
    middle.loudness = medianOf ([] (const StrokeMeasures& m) { return m.loudness; });
    middle.loudnessA = medianOf ([] (const StrokeMeasures& m) { return m.loudnessA; });

    for (std::size_t i = 0; i < octaves.size(); ++i)
    {
        auto& band = middle.bands[i];
        band.level = medianOf ([i] (const StrokeMeasures& m) { return m.bands[i].level; });
        band.attack = medianOf ([i] (const StrokeMeasures& m) { return m.bands[i].attack; });
        band.peakTime = medianOf ([i] (const StrokeMeasures& m) { return m.bands[i].peakTime; });

        std::vector<double> times;
        for (const auto& each : all)
            if (each.bands[i].t60)
                times.push_back (*each.bands[i].t60);
        if (! times.empty())
            band.t60 = median (times);
    }

    return middle;
}

Comparison compare (const StrokeMeasures& one, const StrokeMeasures& against)
{
    Comparison comparison;
    comparison.loudness = one.loudness - against.loudness;
    comparison.loudnessA = one.loudnessA - against.loudnessA;

    for (std::size_t i = 0; i < octaves.size(); ++i)
        comparison.levels[i] = one.bands[i].level - against.bands[i].level;

    return comparison;
}

double brighter (const Comparison& comparison)
{
    return (comparison.levels[octave1k] + comparison.levels[octave2k] + comparison.levels[octave4k]) / 3.0;
}

} // namespace recordings
