#include "Lesson.h"

#include "Engine/DrumModel.h"
#include "Score/Loudness.h"
#include "Score/PatternText.h"
#include "Score/Performance.h"

#include "Modal/NumberText.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace sheets
{
namespace
{

constexpr double ringOut = 1.2;         // s after the last step of the pattern
constexpr double highestMode = 4000.0;  // Hz
constexpr double loudestPeak = 0.891;   // −1 dB
constexpr double loudestLesson = -20.0; // LKFS

std::string changeOf (const char* name, const modal::HeadPrediction& from, const modal::HeadPrediction& to)
{
    const double semitones = modal::centsBetween (from.tapNote, to.tapNote) / 100.0;
    constexpr double audible = 0.02;

    if (std::abs (semitones) < audible)
        return std::string (name) + " head held.";

    return std::string (name) + " head " + modal::signedText (semitones, 1) + " semitones, tension " +
           modal::signedText (100.0 * (to.tension / from.tension - 1.0), 0) + " %.";
}

std::vector<float> play (const files::LessonFile& lesson, const modal::Prediction& prediction)
{
    const auto tensions = modal::tensionsFor (prediction.drum, prediction.tuning);
    auto setup =
        engine::setUp (prediction.drum, tensions, modal::solve (prediction.drum, tensions, { .highestFrequency = highestMode }),
                       { lesson.drum.wires, lesson.drum.hoop, lesson.drum.stick });
    setup.microphones = { engine::defaultMicrophones (prediction.drum.depth).front() };
    setup.sampleRate = lessonRate;

    const score::PatternTempo tempo{ lesson.beatsPerMinute, lesson.stepsPerBeat };
    score::Performance performance (std::make_shared<const engine::DrumModel> (setup),
                                    score::readPattern (lesson.strokes, tempo, "strokes of the lesson"));
    std::vector<float> sound (static_cast<std::size_t> ((score::patternLength (lesson.strokes, tempo) + ringOut) * lessonRate));
    constexpr std::size_t block = 512;

    for (std::size_t at = 0; at < sound.size(); at += block)
    {
        float* output = sound.data() + at;
        performance.process (&output, static_cast<int> (std::min (block, sound.size() - at)));
    }

    return sound;
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

std::vector<std::string> changesBetween (const modal::Prediction& from, const modal::Prediction& to)
{
    std::vector<std::string> changes{ changeOf ("Batter", from.batter, to.batter) };

    if (to.drum.hasResonantHead())
        changes.push_back (changeOf ("Resonant", from.resonant, to.resonant));

    changes.push_back ("Drum note " + modal::signedText (modal::centsBetween (from.drumNote, to.drumNote) / 100.0, 1) +
                       " semitones.");
    return changes;
}

PlayedLesson playLesson (const files::LessonFile& lesson, const std::function<void (double)>& progress)
{
    PlayedLesson played;
    played.lesson = lesson;

    for (const auto& step : lesson.steps)
    {
        PlayedStep next;
        next.step = step;
        next.prediction = modal::predict (lesson.drum.drum, step.tuning);

        if (played.steps.empty())
            next.changes = { "The first tuning." };
        else
            next.changes = changesBetween (played.steps.back().prediction, next.prediction);

        next.sound = play (lesson, next.prediction);
        played.steps.push_back (std::move (next));

        if (progress)
            progress (static_cast<double> (played.steps.size()) / static_cast<double> (lesson.steps.size()));
    }

    played.loudness = makeEquallyLoud (played.steps);
    return played;
}

} // namespace sheets
