#include "Instrument.h"

#include "Engine/Drum.h"
#include "Engine/PlayedBand.h"
#include "Modal/InputError.h"
#include "Modal/Solve.h"
#include "Score/StereoMix.h"

#include <algorithm>
#include <memory>

namespace recordings
{

namespace
{
constexpr double sampleRate = 48000.0;

std::shared_ptr<const engine::DrumModel> modelOf (const files::DrumFile& file, const Playing& playing)
{
    const auto tensions = modal::tensionsFor (file.drum, file.tunings.front());
    modal::SolveOptions options;
    options.highestFrequency = engine::playedBand (file.drum, tensions, playing.modes);
    auto setup =
        engine::setUp (file.drum, tensions, modal::solve (file.drum, tensions, options), { file.wires, file.hoop, file.stick });
    setup.microphones = engine::defaultMicrophones (file.drum.depth);
    setup.sampleRate = sampleRate;
    setup.wireDetail = { playing.strands, playing.points, playing.stringModes };
    return std::make_shared<const engine::DrumModel> (setup);
}

/** What the microphones' mix sums to in mono, or one microphone alone. */
std::vector<double> monoGains (const std::string& microphone)
{
    const auto microphones = engine::defaultMicrophones (0.0);
    std::vector<double> gains;
    for (std::size_t m = 0; m < score::usualMix.size(); ++m)
    {
        const auto sides = score::sideGains (score::usualMix[m]);
        const bool isHeard = microphone.empty() || microphone == microphones[m].name;
        gains.push_back (isHeard ? 0.5 * (sides.left + sides.right) * engine::fullScalePressure : 0.0);
    }
    if (std::all_of (gains.begin(), gains.end(), [] (double gain) { return gain == 0.0; }))
        throw modal::InputError ("microphone", microphone, "above, below, distant");
    return gains;
}

listening::Recording record (engine::Drum& drum, const engine::Stroke& stroke, const Playing& playing)
{
    constexpr int block = 480;
    const auto gains = monoGains (playing.microphone);
    std::vector<std::array<float, block>> channels (gains.size());
    std::vector<float*> outputs;
    for (auto& channel : channels)
        outputs.push_back (channel.data());

    drum.reset();
    drum.strike (stroke);
    listening::Recording recording{ sampleRate, {} };

    while (recording.seconds() < strokeTime + 0.05)
    {
        drum.process (outputs.data(), block);
        for (std::size_t i = 0; i < block; ++i)
        {
            double sum = 0.0;
            for (std::size_t m = 0; m < gains.size(); ++m)
                sum += gains[m] * static_cast<double> (channels[m][i]);
            recording.samples.push_back (sum);
        }
    }

    return strokeOf (recording);
}
} // namespace

listening::Recording played (const files::DrumFile& file, const engine::Stroke& stroke, const Playing& playing)
{
    engine::Drum drum (modelOf (file, playing));
    return record (drum, stroke, playing);
}

files::DrumFile tunedAsRecorded (files::DrumFile file)
{
    auto& tuning = file.tunings.front();
    tuning.target = modal::ByTension{ 5500.0, 4500.0 };
    tuning.lugs = {};
    file.drum.name += ", high";
    return file;
}

std::vector<listening::Recording> strokesOfKind (const files::DrumFile& file, engine::StrokeKind kind, const Playing& playing)
{
    engine::Drum drum (modelOf (file, playing));
    std::vector<listening::Recording> strokes;
    for (const double speed : playing.speeds)
    {
        engine::Stroke stroke;
        stroke.kind = kind;
        stroke.position = playing.place;
        stroke.speed = speed;
        strokes.push_back (record (drum, stroke, playing));
    }
    return strokes;
}

StrokeSet instrument (const files::DrumFile& file, const Playing& playing)
{
    StrokeSet set{ file.drum.name, {} };
    auto on = file, off = file;
    on.wires.on = true;
    off.wires.on = false;
    set.strokes[StrokeClass::headOn] = strokesOfKind (on, engine::StrokeKind::tip, playing);
    set.strokes[StrokeClass::headOff] = strokesOfKind (off, engine::StrokeKind::tip, playing);
    set.strokes[StrokeClass::rimshotOn] = strokesOfKind (on, engine::StrokeKind::rimshot, playing);
    set.strokes[StrokeClass::rimshotOff] = strokesOfKind (off, engine::StrokeKind::rimshot, playing);
    return set;
}

} // namespace recordings
