#include "ComparedTakes.h"

#include "OfflineTake.h"
#include "SolvedDrum.h"

#include "Modal/Solve.h"
#include "Score/Loudness.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <limits>

namespace plugin
{
namespace
{
/** A take and what is measured of it. */
struct Measured
{
    Clip clip;
    double loudness = 0.0; ///< LUFS; -infinity for silence
    float peak = 0.0f;
};

std::shared_ptr<const engine::DrumModel> modelOf (const Values& values, double sampleRate)
{
    const auto request = requestOf (values);
    const auto tensions = modal::tensionsFor (request.drum, request.tuning);
    auto modes = modal::solve (request.drum, tensions, playedModes (request.drum, tensions));
    return std::make_shared<const engine::DrumModel> (setUpDrum (request, tensions, std::move (modes), sampleRate));
}

/** Cuts the end that lies below a thousandth of the peak. */
void trim (Measured& take)
{
    const float faint = 1.0e-3f * take.peak;
    auto length = take.clip.left.size();
    while (length > 0 && std::abs (take.clip.left[length - 1]) < faint && std::abs (take.clip.right[length - 1]) < faint)
        --length;
    take.clip.left.resize (length);
    take.clip.right.resize (length);
}

/** @param step  called with the share that is done after each block; ends the take if it returns false */
Measured play (const TakeRequest& request, const std::function<bool (double)>& step)
{
    constexpr int block = 512;
    OfflineTake take (request);
    Measured measured;
    std::array<std::array<float, block>, OfflineTake::channels> buffers{};
    std::array<float*, OfflineTake::channels> pointers{};
    for (std::size_t c = 0; c < pointers.size(); ++c)
        pointers[c] = buffers[c].data();

    auto& [left, right] = measured.clip;
    left.reserve (static_cast<std::size_t> (take.length()));
    right.reserve (static_cast<std::size_t> (take.length()));

    while (const int frames = take.render (pointers.data(), block))
    {
        left.insert (left.end(), pointers[0], pointers[0] + frames);
        right.insert (right.end(), pointers[1], pointers[1] + frames);
        for (int i = 0; i < frames; ++i)
            measured.peak = std::max ({ measured.peak, std::abs (pointers[0][i]), std::abs (pointers[1][i]) });
        if (! step (static_cast<double> (left.size()) / static_cast<double> (take.length())))
            break;
    }

    trim (measured);
    score::LoudnessMeter meter (request.model->setup().sampleRate, 2);
    const float* const sides[] = { left.data(), right.data() };
    meter.add (sides, static_cast<int> (left.size()));
    measured.loudness = meter.loudness();
    return measured;
}

/** LUFS: the mean of the takes that sound, or the highest at which none is above full scale. */
double commonLoudness (const std::vector<Measured>& takes)
{
    double sum = 0.0, highest = std::numeric_limits<double>::infinity();
    int sounding = 0;

    for (const auto& take : takes)
        if (std::isfinite (take.loudness))
        {
            sum += take.loudness;
            ++sounding;
            highest = std::min (highest, take.loudness - 20.0 * std::log10 (static_cast<double> (take.peak)));
        }

    return sounding > 0 ? std::min (sum / sounding, highest) : 0.0;
}
} // namespace

std::vector<std::shared_ptr<const Clip>> comparedTakes (const std::vector<Values>& tunings, const score::Score& strokes,
                                                        double sampleRate, std::atomic<double>& share,
                                                        const std::atomic<bool>& cancel)
{
    std::vector<Measured> takes;

    for (const auto& values : tunings)
    {
        const auto before = static_cast<double> (takes.size());
        takes.push_back (play (takeOf (strokes, modelOf (values, sampleRate), values),
                               [&] (double done)
                               {
                                   share = (before + done) / static_cast<double> (tunings.size());
                                   return ! cancel;
                               }));
        if (cancel)
            return {};
    }

    const double loudness = commonLoudness (takes);
    std::vector<std::shared_ptr<const Clip>> clips;

    for (auto& take : takes)
    {
        const auto gain =
            std::isfinite (take.loudness) ? static_cast<float> (std::pow (10.0, (loudness - take.loudness) / 20.0)) : 1.0f;
        for (auto* side : { &take.clip.left, &take.clip.right })
            for (auto& sample : *side)
                sample *= gain;

        clips.push_back (std::make_shared<const Clip> (std::move (take.clip)));
    }

    return clips;
}

} // namespace plugin
