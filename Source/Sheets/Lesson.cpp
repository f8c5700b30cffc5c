#include "Lesson.h"

#include "Engine/DrumModel.h"
#include "Engine/PlayedBand.h"
#include "Engine/PlayedRing.h"
#include "Score/Loudness.h"
#include "Score/PatternText.h"
#include "Score/Performance.h"
#include "Score/UsualMix.h"

#include "Modal/InputError.h"
#include "Modal/NumberText.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace sheets
{
namespace
{

constexpr double ringOut = 1.2;         // s after the last step of the pattern
constexpr double loudestPeak = 0.891;   // −1 dB
constexpr double loudestLesson = -20.0; // LUFS

std::string changeOf (const char* name, const modal::HeadPrediction& from, const modal::HeadPrediction& to)
{
    const double semitones = modal::centsBetween (from.tapNote, to.tapNote) / 100.0;
    constexpr double audible = 0.02;

    if (std::abs (semitones) < audible)
        return std::string (name) + " head held.";

    return std::string (name) + " head " + modal::signedText (semitones, 1) + " semitones, tension " +
           modal::signedText (100.0 * (to.tension / from.tension - 1.0), 0) + " %.";
}

std::string wiresSentence (const modal::WireSpec& wires)
{
    if (! wires.on)
        return "Wires off.";

    return "Wires on: " + std::to_string (wires.strands) + " strands, " + modal::asText (wires.strandTension, 3) + " N each.";
}

std::string mufflingText (const modal::Muffling& muffling)
{
    if (muffling.empty())
        return "No muffling.";

    std::string text = "Muffling:";

    for (const auto& item : muffling)
    {
        const bool isPatch = item.shape == modal::MufflingItem::Shape::patch;
        text += (&item == muffling.data() ? " " : "; ") + modal::asText (1.0e3 * item.mass, 3) + " g " +
                (isPatch ? "patch" : "ring") + " on the " + (item.head == modal::HeadSide::batter ? "batter" : "resonant") +
                " head";

        if (isPatch)
            text += ", " + modal::asText (1.0e3 * item.distance, 3) + " mm from the centre";
    }

    return text + ".";
}

score::Score strokesOf (const files::LessonFile& lesson, const files::LessonStep& step)
{
    return score::readPattern (step.strokes, { lesson.beatsPerMinute, lesson.stepsPerBeat }, step.source + ": strokes");
}

modal::Prediction predictionOf (const files::LessonStep& step)
{
    try
    {
        return modal::predict (step.drum.drum, step.tuning);
    }
    catch (const modal::InputError& e)
    {
        throw e.of (step.source + ": " + e.field());
    }
}

std::shared_ptr<const engine::DrumModel> modelOf (const files::LessonStep& step)
{
    const auto& file = step.drum;
    const auto tensions = modal::tensionsFor (file.drum, step.tuning);
    const auto modes = modal::solve (file.drum, tensions, { .highestFrequency = engine::playedBand (file.drum, tensions) });
    auto setup = engine::setUp (file.drum, tensions, modes, { file.wires, file.hoop, file.stick });
    setup.microphones = engine::defaultMicrophones (file.drum.depth);
    setup.sampleRate = lessonRate;
    return std::make_shared<const engine::DrumModel> (setup);
}

/** What the microphone above the batter head hears, and how loud the usual mix of all microphones is. */
struct Heard
{
    std::vector<float> above;
    double mixLoudness = 0.0; ///< LUFS, full scale 1 Pa
};

Heard play (const std::shared_ptr<const engine::DrumModel>& model, const score::Score& strokes, double length)
{
    constexpr std::size_t block = 512;
    const auto frames = static_cast<std::size_t> (length * lessonRate);
    const score::UsualMix usualMix;

    score::Performance performance (model, strokes);
    score::LoudnessMeter meter (lessonRate, 2);
    std::array<std::array<float, block>, score::UsualMix::microphones> heard{};
    std::array<std::array<float, block>, 2> mix{};
    Heard result{ std::vector<float> (frames) };

    for (std::size_t at = 0; at < frames; at += block)
    {
        const auto count = std::min (block, frames - at);
        float* const outputs[] = { heard[0].data(), heard[1].data(), heard[2].data() };
        performance.process (outputs, static_cast<int> (count));

        usualMix.mix (outputs, mix[0].data(), mix[1].data(), static_cast<int> (count));
        const float* const channels[] = { mix[0].data(), mix[1].data() };
        meter.add (channels, static_cast<int> (count));
        std::copy_n (heard[0].begin(), count, result.above.begin() + static_cast<std::ptrdiff_t> (at));
    }

    result.mixLoudness = meter.loudness();
    return result;
}

void play (PlayedStep& step, const files::LessonFile& lesson)
{
    const auto model = modelOf (step.step);
    const score::PatternTempo tempo{ lesson.beatsPerMinute, lesson.stepsPerBeat };
    auto heard = play (model, strokesOf (lesson, step.step), score::patternLength (step.step.strokes, tempo) + ringOut);
    step.sound = std::move (heard.above);
    step.mixLoudness = heard.mixLoudness;
    if (step.step.drum.drum.hasResonantHead() && model->setup().wires.on)
        step.ringWiresOn = engine::playedRing (model->setup());
    step.curves = curvesOf (play (model, score::readPattern ("o6", {}, "stroke"), ringOut).above, lessonRate);
}

float peakOf (const std::vector<float>& sound)
{
    float peak = 0.0f;

    for (const float s : sound)
        peak = std::max (peak, std::abs (s));

    return peak;
}

/** Scales all steps to one loudness, by the loudness measured before scaling. */
double scaleToOneLoudness (std::vector<PlayedStep>& steps)
{
    std::vector<double> levels;
    double common = loudestLesson;

    for (const auto& step : steps)
    {
        levels.push_back (score::loudness (step.sound, lessonRate));
        const double headroom = 20.0 * std::log10 (loudestPeak / std::max (static_cast<double> (peakOf (step.sound)), 1.0e-12));
        common = std::min (common, levels.back() + headroom);
    }

    for (std::size_t i = 0; i < steps.size(); ++i)
    {
        const auto gain = static_cast<float> (std::pow (10.0, (common - levels[i]) / 20.0));

        for (auto& s : steps[i].sound)
            s *= gain;
    }

    return common;
}

/** Scales all steps to one loudness. The absolute gate of the measure makes loudness differ a little from gain, so the second
   scaling measures again near the final level. */
double makeEquallyLoud (std::vector<PlayedStep>& steps)
{
    scaleToOneLoudness (steps);
    return scaleToOneLoudness (steps);
}

} // namespace

double playingGain (const PlayedLesson& played, std::size_t step)
{
    const auto softest = std::min_element (played.steps.begin(), played.steps.end(),
                                           [] (const auto& a, const auto& b) { return a.mixLoudness < b.mixLoudness; });
    return softest->mixLoudness - played.steps[step].mixLoudness;
}

std::vector<std::string> changesBetween (const PlayedStep& from, const PlayedStep& to)
{
    const auto &before = from.prediction, &after = to.prediction;
    const auto &oldDrum = from.step.drum, &newDrum = to.step.drum;
    std::vector<std::string> changes;

    if (before.drum.name != after.drum.name)
        changes.push_back ("Drum: " + after.drum.name + ".");

    changes.push_back (changeOf ("Batter", before.batter, after.batter));

    if (before.drum.hasResonantHead() && after.drum.hasResonantHead())
        changes.push_back (changeOf ("Resonant", before.resonant, after.resonant));

    changes.push_back ("Drum note " + modal::signedText (modal::centsBetween (before.drumNote, after.drumNote) / 100.0, 1) +
                       " semitones.");

    // Compared as files have them: one comparison for all their numbers.
    if (files::wiresAsJson (oldDrum.wires) != files::wiresAsJson (newDrum.wires))
        changes.push_back (wiresSentence (newDrum.wires));

    if (files::mufflingAsJson (oldDrum.drum.muffling) != files::mufflingAsJson (newDrum.drum.muffling))
        changes.push_back (mufflingText (newDrum.drum.muffling));

    if (from.step.strokes != to.step.strokes)
        changes.emplace_back ("Other strokes.");

    return changes;
}

PlayedLesson playLesson (const files::LessonFile& lesson, const std::function<void (double)>& progress)
{
    PlayedLesson played;
    played.lesson = lesson;

    for (const auto& step : lesson.steps)
    {
        strokesOf (lesson, step);
        PlayedStep next;
        next.step = step;
        next.prediction = predictionOf (step);
        played.steps.push_back (std::move (next));
    }

    for (std::size_t i = 0; i < played.steps.size(); ++i)
    {
        play (played.steps[i], lesson);
        played.steps[i].changes =
            i == 0 ? std::vector<std::string>{ "The first step." } : changesBetween (played.steps[i - 1], played.steps[i]);

        if (progress)
            progress (static_cast<double> (i + 1) / static_cast<double> (played.steps.size()));
    }

    played.loudness = makeEquallyLoud (played.steps);
    return played;
}

} // namespace sheets
