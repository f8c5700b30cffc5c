#include "Instrument.h"

#include "Engine/Drum.h"
#include "Engine/PlayedBand.h"
#include "Modal/Solve.h"
#include "Score/StereoMix.h"

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

/** What the microphones' mix sums to in mono. */
std::vector<double> monoGains()
{
    std::vector<double> gains;
    for (const auto& channel : score::usualMix)
    {
        const auto sides = score::sideGains (channel);
        gains.push_back (0.5 * (sides.left + sides.right) * engine::fullScalePressure);
    }
    return gains;
}

listening::Recording record (engine::Drum& drum, const engine::Stroke& stroke)
{
    constexpr int block = 480;
    const auto gains = monoGains();
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
    return record (drum, stroke);
}

StrokeSet instrument (const files::DrumFile& file, const Playing& playing)
{
    StrokeSet set{ file.drum.name, {} };

    for (const bool isOn : { true, false })
    {
        auto fitted = file;
        fitted.wires.on = isOn;
        engine::Drum drum (modelOf (fitted, playing));

        for (const auto kind : { engine::StrokeKind::tip, engine::StrokeKind::rimshot })
        {
            const bool isRimshot = kind == engine::StrokeKind::rimshot;
            auto& strokes = set.strokes[isOn ? (isRimshot ? StrokeClass::rimshotOn : StrokeClass::headOn)
                                             : (isRimshot ? StrokeClass::rimshotOff : StrokeClass::headOff)];
            for (const double speed : playing.speeds)
            {
                engine::Stroke stroke;
                stroke.kind = kind;
                stroke.speed = speed;
                strokes.push_back (record (drum, stroke));
            }
        }
    }

    return set;
}

} // namespace recordings
